import { BufferAttribute, BufferGeometry, Color, DoubleSide, Group, Mesh, ShaderMaterial } from 'three';
import { mix, type Palette } from '../palette.js';
import type { V3 } from './piece.js';

/** Water on its way: the line that it takes, and how wide it is drawn, mm. */
export interface Stream {
  readonly points: readonly V3[];
  readonly width: number;
}

/** Of running water between its crests and on them. */
export const streamInks = ({ water, paper }: Palette): { readonly film: string; readonly crest: string } => ({
  film: mix(water, paper, 0.1),
  crest: mix(water, '#ffffff', 0.6),
});

/** mm between two crests of the moving film, and mm/s by which they move: for the eye, not a speed that was worked out. */
const CRESTS = 46;
const SPEED = 85;
/** mm over the sheet, so that the film does not sink into it. */
const LIFT = 0.9;

/** A film that moves along the ways of the water. Whoever draws it says when it is. */
export class Streams {
  readonly root = new Group();
  private readonly look = new ShaderMaterial({
    uniforms: { film: { value: new Color() }, crest: { value: new Color() }, moved: { value: 0 } },
    vertexShader: `attribute float along; attribute float across; varying float a; varying float b;
      void main() { a = along; b = across; gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0); }`,
    fragmentShader: `uniform vec3 film; uniform vec3 crest; uniform float moved; varying float a; varying float b;
      void main() {
        float at = fract((a - moved) / ${CRESTS.toFixed(1)} + 0.12 * b * b);
        float high = smoothstep(0.0, 0.75, at) * (1.0 - smoothstep(0.9, 1.0, at));
        gl_FragColor = vec4(mix(film, crest, high), mix(0.35, 0.95, high) * (1.0 - 0.55 * b * b));
        #include <colorspace_fragment>
      }`,
    transparent: true,
    depthWrite: false,
    side: DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: -2,
    polygonOffsetUnits: -2,
  });

  set(streams: readonly Stream[]): void {
    for (const child of this.root.children as Mesh[]) child.geometry.dispose();
    this.root.clear();
    for (const stream of streams) this.root.add(new Mesh(ribbonOf(stream), this.look));
  }

  get isEmpty(): boolean {
    return this.root.children.length === 0;
  }

  recolor(palette: Palette): void {
    const { film, crest } = streamInks(palette);
    (this.look.uniforms.film.value as Color).set(film);
    (this.look.uniforms.crest.value as Color).set(crest);
  }

  /** To how it is at a time, s. */
  moveTo(time: number): void {
    this.look.uniforms.moved.value = (time * SPEED) % (CRESTS * 1e4);
  }
}

const ribbonOf = ({ points, width }: Stream): BufferGeometry => {
  const [positions, along, across, index]: [number[], number[], number[], number[]] = [[], [], [], []];
  let length = 0;
  let side: V3 = [1, 0, 0];
  points.forEach((point, i) => {
    const before = points[Math.max(0, i - 1)];
    const after = points[Math.min(points.length - 1, i + 1)];
    const [x, y] = [after[0] - before[0], after[1] - before[1]];
    const level = Math.hypot(x, y);
    // Straight down it keeps the side that it had.
    if (level > 1e-6) side = [-y / level, x / level, 0];
    length += Math.hypot(point[0] - before[0], point[1] - before[1], point[2] - before[2]);
    for (const which of [-1, 1]) {
      const out = (which * width) / 2;
      positions.push(point[0] + side[0] * out, point[1] + side[1] * out, point[2] + LIFT);
      along.push(length);
      across.push(which);
    }
    if (i > 0) index.push(2 * i - 2, 2 * i - 1, 2 * i, 2 * i, 2 * i - 1, 2 * i + 1);
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(positions), 3));
  geometry.setAttribute('along', new BufferAttribute(Float32Array.from(along), 1));
  geometry.setAttribute('across', new BufferAttribute(Float32Array.from(across), 1));
  geometry.setIndex(index);
  return geometry;
};

/** Calls back about thirty times a second while it is on, the element is seen, and motion is wanted. */
export class Motion {
  private isOn = false;
  private frame = 0;
  private last = 0;

  constructor(
    private readonly element: HTMLElement,
    private readonly draw: (time: number) => void,
  ) {}

  /** Does it move now? */
  run(isOn: boolean): void {
    this.isOn = isOn;
    cancelAnimationFrame(this.frame);
    if (isOn && wantsMotion()) this.frame = requestAnimationFrame((now) => this.tick(now));
  }

  private tick(now: number): void {
    // Off the page there is nothing to move; a hidden window asks for no frames at all.
    if (!this.isOn || !this.element.isConnected || !wantsMotion()) return;
    this.frame = requestAnimationFrame((next) => this.tick(next));
    if (now - this.last < LEAST_FRAME) return;
    this.last = now;
    this.draw(now / 1000);
  }
}

/** ms. */
const LEAST_FRAME = 30;

export const wantsMotion = (): boolean =>
  !matchMedia('(prefers-reduced-motion: reduce)').matches && !document.body.classList.contains('vscode-reduce-motion');
