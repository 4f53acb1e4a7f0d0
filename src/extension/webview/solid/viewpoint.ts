import { PerspectiveCamera, Vector3 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Bodies } from './bodies.js';
import type { V3 } from './pieces.js';

/** What is kept of it over a reload. */
export interface KeptCamera {
  readonly position: V3;
  readonly target: V3;
}

/** Share of the picture that a fitted tub fills. */
const FILL = 0.86;

/** From where one looks: turned by mouse, touch and keys, z always up. */
export class Viewpoint {
  readonly camera = new PerspectiveCamera(28, 1, 1, 100000);
  isSet = false;
  private readonly controls: OrbitControls;

  constructor(
    private readonly element: HTMLElement,
    private readonly bodies: Bodies,
    private readonly first: V3,
    private readonly moved: () => void,
  ) {
    this.camera.up.set(0, 0, 1);
    this.camera.position.set(1, -1.4, 1);
    this.controls = new OrbitControls(this.camera, element);
    this.controls.enableDamping = false;
    this.controls.zoomToCursor = true;
    this.controls.addEventListener('change', moved);
  }

  get eye(): V3 {
    return this.camera.position.toArray();
  }

  /** Looks at all of it from a direction; by default from where it is first seen. */
  fit(direction: V3 = this.first): void {
    const { center, radius } = this.bodies;
    const away = new Vector3(...direction).normalize();
    const aspect = Math.max(50, this.element.clientWidth) / Math.max(50, this.element.clientHeight);
    let distance = (radius / Math.sin((this.camera.fov * Math.PI) / 360)) * Math.max(1, 1 / aspect);
    this.controls.target.copy(center);
    this.camera.near = Math.max(0.1, distance / 200);
    this.camera.far = distance * 20;
    this.camera.updateProjectionMatrix();
    // The ball around it always fits; usually one can stand nearer.
    for (let i = 0; i < 4; i++) {
      this.camera.position.copy(center).addScaledVector(away, distance);
      this.camera.lookAt(center);
      this.camera.updateMatrixWorld();
      distance = Math.max(radius * 0.5, distance * Math.max(0.3, this.filled() / FILL));
    }
    this.camera.position.copy(center).addScaledVector(away, distance);
    this.isSet = !this.bodies.isEmpty;
    this.settle();
  }

  /** From where one looks now, as far away as all of it needs. */
  refit(): void {
    this.fit(this.camera.position.clone().sub(this.controls.target).normalize().toArray());
  }

  keep(): KeptCamera | undefined {
    return this.isSet ? { position: this.eye, target: this.controls.target.toArray() } : undefined;
  }

  restore(kept: unknown): void {
    const camera = kept as KeptCamera | undefined;
    if (!camera || !Array.isArray(camera.position) || !Array.isArray(camera.target)) return;
    this.camera.position.fromArray([...camera.position]);
    this.controls.target.fromArray([...camera.target]);
    this.isSet = true;
    this.controls.update();
  }

  resize(width: number, height: number): void {
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
  }

  readonly keys: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => this.turn(-0.12, 0),
    ArrowRight: () => this.turn(0.12, 0),
    ArrowUp: () => this.turn(0, -0.1),
    ArrowDown: () => this.turn(0, 0.1),
    '+': () => this.approach(0.85),
    '=': () => this.approach(0.85),
    '-': () => this.approach(1.18),
    '0': () => this.fit(),
  };

  /** How much of the picture's half width or height the corners of the whole take, as the camera stands. */
  private filled(): number {
    const { low, high } = this.bodies;
    let most = 0;
    for (let corner = 0; corner < 8; corner++) {
      const point = new Vector3(
        corner & 1 ? low.x : high.x,
        corner & 2 ? low.y : high.y,
        corner & 4 ? low.z : high.z,
      ).project(this.camera);
      most = Math.max(most, Math.abs(point.x), Math.abs(point.y));
    }
    return most;
  }

  private turn(around: number, over: number): void {
    const offset = this.camera.position.clone().sub(this.controls.target).applyAxisAngle(this.camera.up, around);
    const length = offset.length();
    const tilt = Math.acos(Math.min(1, Math.max(-1, offset.z / length)));
    const next = Math.min(Math.PI - 0.05, Math.max(0.05, tilt + over));
    const level = Math.hypot(offset.x, offset.y) || 1e-6;
    const [x, y] = [offset.x / level, offset.y / level];
    offset.set(x * Math.sin(next) * length, y * Math.sin(next) * length, Math.cos(next) * length);
    this.camera.position.copy(this.controls.target).add(offset);
    this.settle();
  }

  private approach(factor: number): void {
    this.camera.position.sub(this.controls.target).multiplyScalar(factor).add(this.controls.target);
    this.settle();
  }

  private settle(): void {
    this.controls.update();
    this.moved();
  }
}
