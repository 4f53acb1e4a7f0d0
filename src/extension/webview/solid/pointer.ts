import { Raycaster, Vector2, type Camera } from 'three';

/** Where a pointer is in the window. */
export interface PointerPlace {
  readonly clientX: number;
  readonly clientY: number;
}

/** px that a press may move and still be one. */
const STILL = 3;

/** Calls back at each press that does not turn the view; `times`: 2 at the second of two quick ones. */
export const onPress = (element: HTMLElement, act: (at: PointerPlace, times: 1 | 2) => void): void => {
  let down: PointerPlace | undefined;
  element.addEventListener('pointerdown', (event) => (down = event));
  element.addEventListener('click', (event) => {
    if (down && Math.hypot(event.clientX - down.clientX, event.clientY - down.clientY) <= STILL) act(event, 1);
  });
  element.addEventListener('dblclick', (event) => act(event, 2));
};

/** From the eye through a place of the picture. */
export const rayThrough = ({ clientX, clientY }: PointerPlace, picture: HTMLElement, camera: Camera): Raycaster => {
  const box = picture.getBoundingClientRect();
  const ray = new Raycaster();
  const at = new Vector2(((clientX - box.left) / box.width) * 2 - 1, 1 - ((clientY - box.top) / box.height) * 2);
  ray.setFromCamera(at, camera);
  return ray;
};
