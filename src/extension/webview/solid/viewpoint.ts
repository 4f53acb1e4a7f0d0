import { OrthographicCamera, PerspectiveCamera, Vector3 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Bodies } from './bodies.js';
import type { V3 } from './piece.js';

/** What is kept of it over a reload. */
export interface KeptCamera {
  readonly position: V3;
  readonly target: V3;
  /** Of a parallel view. */
  readonly zoom?: number;
}

/** Near and far in one view are of one scale, or not. */
export type Sight = 'perspective' | 'parallel';

/** Share of the picture that a fitted tub fills. */
const FILL = 0.86;

/** From where one looks: turned by mouse, touch and keys, z always up. */
export class Viewpoint {
  readonly cameras = {
    perspective: new PerspectiveCamera(28, 1, 1, 100000),
    parallel: new OrthographicCamera(-1, 1, 1, -1, 0.1, 100000),
  };
  sight: Sight = 'perspective';
  isSet = false;
  /** Fitted, and not moved since: it is fitted again when the picture or the tub gets another size. */
  private isFitted = false;
  private aspect = 1;
  private readonly controls: OrbitControls;

  constructor(
    private readonly element: HTMLElement,
    private readonly bodies: Bodies,
    private readonly first: V3,
    private readonly moved: () => void,
  ) {
    for (const camera of Object.values(this.cameras)) {
      camera.up.set(0, 0, 1);
      camera.position.set(1, -1.4, 1);
    }
    this.controls = new OrbitControls(this.camera, element);
    this.controls.enableDamping = false;
    this.controls.zoomToCursor = true;
    this.controls.addEventListener('change', moved);
    this.controls.addEventListener('start', () => (this.isFitted = false));
  }

  get eye(): V3 {
    return this.camera.position.toArray();
  }

  get camera(): PerspectiveCamera | OrthographicCamera {
    return this.cameras[this.sight];
  }

  /** From where surfaces are seen; in a parallel view as good as from infinitely far. */
  get seenFrom(): V3 {
    if (this.sight === 'perspective') return this.eye;
    const { target } = this.controls;
    return target
      .clone()
      .addScaledVector(this.away(), this.bodies.radius * 1e6)
      .toArray();
  }

  /** From a place towards the eye. */
  towardsEye(place: V3): V3 {
    const away = this.sight === 'perspective' ? this.camera.position.clone().sub(new Vector3(...place)) : this.away();
    return away.normalize().toArray();
  }

  /** Pixels per mm; undefined in perspective. */
  scale(): number | undefined {
    const { top, bottom, zoom } = this.cameras.parallel;
    return this.sight === 'parallel' ? (this.element.clientHeight * zoom) / (top - bottom) : undefined;
  }

  /** Looks at all of it from a direction; by default from where it is first seen. */
  fit(direction: V3 = this.first, sight: Sight = 'perspective'): void {
    this.see(sight);
    if (sight === 'parallel') this.fitParallel(direction);
    else this.fitPerspective(direction);
    this.isSet = this.isFitted = !this.bodies.isEmpty;
    this.settle();
  }

  private see(sight: Sight): void {
    this.sight = sight;
    this.controls.object = this.camera;
  }

  private away(): Vector3 {
    return this.camera.position.clone().sub(this.controls.target).normalize();
  }

  private fitParallel(direction: V3): void {
    const { center, radius } = this.bodies;
    const camera = this.cameras.parallel;
    this.controls.target.copy(center);
    camera.position.copy(center).addScaledVector(new Vector3(...direction).normalize(), radius * 10);
    camera.lookAt(center);
    [camera.near, camera.far, camera.zoom] = [radius * 0.1, radius * 20, 1];
    [camera.top, camera.bottom] = [radius, -radius];
    this.reshape();
    camera.updateMatrixWorld();
    camera.zoom = FILL / Math.max(1e-3, this.filled());
    camera.updateProjectionMatrix();
  }

  private reshape(): void {
    const { perspective, parallel } = this.cameras;
    perspective.aspect = this.aspect;
    [parallel.left, parallel.right] = [parallel.bottom * this.aspect, parallel.top * this.aspect];
    perspective.updateProjectionMatrix();
    parallel.updateProjectionMatrix();
  }

  private fitPerspective(direction: V3): void {
    const { center, radius } = this.bodies;
    const away = new Vector3(...direction).normalize();
    const { perspective } = this.cameras;
    const aspect = Math.max(50, this.element.clientWidth) / Math.max(50, this.element.clientHeight);
    let distance = (radius / Math.sin((perspective.fov * Math.PI) / 360)) * Math.max(1, 1 / aspect);
    this.controls.target.copy(center);
    perspective.near = Math.max(0.1, distance / 200);
    perspective.far = distance * 20;
    this.camera.updateProjectionMatrix();
    // The ball around it always fits; usually one can stand nearer.
    for (let i = 0; i < 4; i++) {
      this.camera.position.copy(center).addScaledVector(away, distance);
      this.camera.lookAt(center);
      this.camera.updateMatrixWorld();
      distance = Math.max(radius * 0.5, distance * Math.max(0.3, this.filled() / FILL));
    }
    this.camera.position.copy(center).addScaledVector(away, distance);
  }

  /** From where one looks now, as far away as all of it needs. */
  refit(): void {
    this.fit(this.away().toArray(), this.sight);
  }

  /** The tub is another: seen whole again when it was, and no longer is. */
  follow(): void {
    if (!this.isFitted) return;
    this.camera.updateMatrixWorld();
    const filled = this.filled();
    if (filled > 1 || filled < 0.6) this.refit();
  }

  keep(): KeptCamera | undefined {
    if (!this.isSet) return undefined;
    const zoom = this.sight === 'parallel' ? { zoom: this.cameras.parallel.zoom } : {};
    return { position: this.eye, target: this.controls.target.toArray(), ...zoom };
  }

  restore(kept: unknown): void {
    const camera = kept as KeptCamera | undefined;
    if (!camera || !Array.isArray(camera.position) || !Array.isArray(camera.target)) return;
    const isParallel = typeof camera.zoom === 'number' && camera.zoom > 0;
    if (isParallel) this.fitParallel(camera.position);
    this.see(isParallel ? 'parallel' : 'perspective');
    this.camera.position.fromArray([...camera.position]);
    this.controls.target.fromArray([...camera.target]);
    if (isParallel) this.cameras.parallel.zoom = camera.zoom ?? 1;
    this.reshape();
    this.isSet = true;
    this.controls.update();
  }

  resize(width: number, height: number): void {
    this.aspect = width / height;
    this.reshape();
    if (this.isFitted) this.refit();
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
    this.isFitted = false;
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
    this.isFitted = false;
    if (this.sight === 'parallel') {
      this.cameras.parallel.zoom /= factor;
      this.cameras.parallel.updateProjectionMatrix();
    } else this.camera.position.sub(this.controls.target).multiplyScalar(factor).add(this.controls.target);
    this.settle();
  }

  private settle(): void {
    this.controls.update();
    this.moved();
  }
}
