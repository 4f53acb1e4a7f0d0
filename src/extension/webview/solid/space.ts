/**
 * A view into space that both Folded and Water use: bodies made of pieces, orbit by mouse, touch and keys, taking
 * apart, a section plane, labels. Drawn by WebGL; where there is none, as an SVG drawing of the same scene.
 */
import {
  AmbientLight,
  BackSide,
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  FrontSide,
  Group,
  HemisphereLight,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  type Object3D,
  PerspectiveCamera,
  Plane,
  Raycaster,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import { html, svg } from '../dom.js';
import { readPalette, type Palette } from '../palette.js';
import { placeLabels, type SpaceLabel } from './space-labels.js';
import { cut, Painter } from './painter.js';
import { drawLines, drawPolygons } from './paint-svg.js';
import { WATER, type Piece, type Polygon3, type Tint, type V3 } from './pieces.js';
import { tintColor } from './tints.js';

interface Body {
  readonly group: Group;
  pieces: Map<string, Piece>;
  /** First triangle of each piece, in order. */
  ranges: { readonly start: number; readonly key: string }[];
}

/** Share of the picture that a fitted tub fills. */
const FILL = 0.86;

export interface KeptCamera {
  readonly position: V3;
  readonly target: V3;
}

export interface SpaceEvents {
  picked(key: string, focus: 'text' | 'preview'): void;
  cleared(): void;
  moved(): void;
}

export interface SpaceOptions {
  /** Solids show cut faces in a section; sheets are seen from both sides. */
  readonly solid: boolean;
  readonly label: string;
  /** From where it is first seen. */
  readonly from: V3;
}

export class Space {
  readonly element: HTMLElement;
  private readonly overlay = svg('svg', { class: 'overlay', 'aria-hidden': 'true' });
  private readonly painted = svg('svg', { class: 'painted', 'aria-hidden': 'true' });
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(28, 1, 1, 100000);
  private readonly controls: OrbitControls;
  private readonly renderer: WebGLRenderer | undefined;
  private readonly bodies = new Map<string, Body>();
  private readonly highlight = new Group();
  private readonly section = new Plane(new Vector3(0, -1, 0), 0);
  private sectionOn = false;
  private apart = 0;
  private palette: Palette = readPalette();
  private labels: readonly SpaceLabel[] = [];
  private chosen: readonly string[] = [];
  private painter: Painter | undefined;
  private drawing = false;
  private fitted = false;
  private radius = 100;
  private readonly center = new Vector3();
  private readonly low = new Vector3();
  private readonly high = new Vector3();

  constructor(
    private readonly events: SpaceEvents,
    private readonly options: SpaceOptions,
  ) {
    this.element = html('div', { class: 'space picture', tabindex: 0, role: 'img', 'aria-label': options.label });
    this.renderer = makeRenderer();
    this.element.append(this.renderer ? this.renderer.domElement : this.painted, this.overlay);
    this.element.dataset.renderer = this.renderer ? 'webgl' : 'svg';
    this.camera.up.set(0, 0, 1);
    this.camera.position.set(1, -1.4, 1);
    this.scene.add(
      new HemisphereLight(0xffffff, 0x8a8f96, 1.5),
      new AmbientLight(0xffffff, 0.55),
      this.highlight,
      this.camera,
    );
    const lamp = new DirectionalLight(0xffffff, 1.1);
    lamp.position.set(0.3, 0.8, 0.5);
    this.camera.add(lamp);
    this.controls = new OrbitControls(this.camera, this.element);
    this.controls.enableDamping = false;
    this.controls.addEventListener('change', () => {
      this.draw();
      events.moved();
    });
    this.listen();
  }

  /** Puts pieces into their bodies; pieces that are the same object as before cost nothing. */
  setPieces(pieces: readonly Piece[]): void {
    const byBody = new Map<string, Map<string, Piece>>();
    for (const piece of pieces) {
      const group = byBody.get(piece.body) ?? new Map<string, Piece>();
      byBody.set(piece.body, group.set(piece.key, piece));
    }
    for (const [key, body] of this.bodies) if (!byBody.has(key)) this.dropBody(key, body);
    for (const [key, wanted] of byBody) {
      const body = this.bodies.get(key) ?? this.newBody(key);
      if (body.pieces.size !== wanted.size || [...wanted].some(([k, piece]) => body.pieces.get(k) !== piece)) {
        body.pieces = wanted;
        this.rebuild(body);
      }
    }
    this.painter = undefined;
    this.measure();
    this.spread();
    this.showChosen();
    if (!this.fitted && pieces.length > 0) this.fit();
    this.draw();
  }

  setLabels(labels: readonly SpaceLabel[]): void {
    this.labels = labels;
    this.draw();
  }

  select(keys: readonly string[]): void {
    this.chosen = keys;
    this.showChosen();
    this.draw();
  }

  /** 0: together; 1: bodies moved away from the middle by their own distance. */
  takeApart(share: number): void {
    this.apart = share;
    this.painter = undefined;
    this.measure();
    this.spread();
    this.showChosen();
    // From where one looks now, as far away as the wider spread needs.
    this.fit(this.camera.position.clone().sub(this.controls.target).normalize().toArray());
  }

  /** Cuts away what lies beyond a plane across an axis, at a share of the extent; undefined: nothing is cut. */
  cutAt(axis: 'x' | 'y' | 'z' | undefined, share: number): void {
    this.sectionOn = axis !== undefined;
    if (axis) {
      const normal = new Vector3(axis === 'x' ? -1 : 0, axis === 'y' ? 1 : 0, axis === 'z' ? -1 : 0);
      const reach = this.radius * 1.02;
      const at = this.center[axis] + (share * 2 - 1) * reach;
      this.section.setComponents(normal.x, normal.y, normal.z, -normal[axis] * at);
    }
    if (this.renderer) this.renderer.clippingPlanes = this.sectionOn ? [this.section] : [];
    for (const body of this.bodies.values())
      for (const child of body.group.children) if (child.name === 'inside') child.visible = this.sectionOn;
    this.painter = undefined;
    this.draw();
  }

  fit(direction: V3 = this.options.from): void {
    const away = new Vector3(...direction).normalize();
    let distance =
      (this.radius / Math.sin((this.camera.fov * Math.PI) / 360)) * (this.aspect() < 1 ? 1 / this.aspect() : 1);
    this.controls.target.copy(this.center);
    this.camera.near = Math.max(0.1, distance / 200);
    this.camera.far = distance * 20;
    this.camera.updateProjectionMatrix();
    // The ball around it always fits; usually one can stand nearer.
    for (let i = 0; i < 4; i++) {
      this.camera.position.copy(this.center).addScaledVector(away, distance);
      this.camera.lookAt(this.center);
      this.camera.updateMatrixWorld();
      distance = Math.max(this.radius * 0.5, distance * Math.max(0.3, this.filled() / FILL));
    }
    this.camera.position.copy(this.center).addScaledVector(away, distance);
    this.fitted = this.bodies.size > 0;
    this.controls.update();
    this.draw();
  }

  /** How much of the picture's half width or height the corners of the whole take, as the camera stands. */
  private filled(): number {
    let most = 0;
    for (let corner = 0; corner < 8; corner++) {
      const point = new Vector3(
        corner & 1 ? this.low.x : this.high.x,
        corner & 2 ? this.low.y : this.high.y,
        corner & 4 ? this.low.z : this.high.z,
      );
      point.project(this.camera);
      most = Math.max(most, Math.abs(point.x), Math.abs(point.y));
    }
    return most;
  }

  refresh(): void {
    this.palette = readPalette();
    for (const body of this.bodies.values()) this.rebuild(body);
    this.showChosen();
    this.resize();
    this.draw();
  }

  keep(): KeptCamera | undefined {
    if (!this.fitted) return undefined;
    return { position: this.camera.position.toArray(), target: this.controls.target.toArray() };
  }

  restore(kept: unknown): void {
    const camera = kept as KeptCamera | undefined;
    if (!camera || !Array.isArray(camera.position) || !Array.isArray(camera.target)) return;
    this.camera.position.fromArray([...camera.position]);
    this.controls.target.fromArray([...camera.target]);
    this.fitted = true;
    this.controls.update();
  }

  /** The picture as a drawing with its own colours: polygons, then labels. */
  toSvg(): SVGSVGElement {
    const { clientWidth: width, clientHeight: height } = this.element;
    const drawing = svg('svg', {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
    });
    drawing.append(...this.paint(), ...this.labelsInSight(width, height));
    return drawing;
  }

  /** Labels that nothing stands in front of. */
  private labelsInSight(width: number, height: number): SVGElement[] {
    const hidden = this.renderer ? (point: V3): boolean => this.isHidden(point) : (): boolean => false;
    return placeLabels(this.labels, this.camera, width, height, this.palette, hidden);
  }

  private isHidden(point: V3): boolean {
    const target = new Vector3(...point);
    const toTarget = target.clone().sub(this.camera.position);
    const far = toTarget.length() - this.radius * 0.01;
    const ray = new Raycaster(this.camera.position, toTarget.normalize(), 0, far);
    return ray.intersectObjects(this.surfaces(WATER), false).length > 0;
  }

  private surfaces(without?: string): Object3D[] {
    const all = [...this.bodies]
      .filter(([key]) => key !== without)
      .map(([, { group }]) => group.children.find((child) => child.name === 'surface'));
    return all.filter((surface) => surface !== undefined);
  }

  private newBody(key: string): Body {
    const body: Body = { group: new Group(), pieces: new Map(), ranges: [] };
    this.bodies.set(key, body);
    this.scene.add(body.group);
    return body;
  }

  private dropBody(key: string, body: Body): void {
    clear(body.group);
    this.scene.remove(body.group);
    this.bodies.delete(key);
  }

  private rebuild(body: Body): void {
    clear(body.group);
    body.ranges = [];
    const [positions, normals, lines, tints]: [number[][], number[][], number[][], Tint[]] = [[], [], [], []];
    let triangles = 0;
    for (const [key, piece] of body.pieces) {
      body.ranges.push({ start: triangles, key });
      triangles += piece.tints.length;
      positions.push(piece.positions as number[]);
      normals.push(piece.normals as number[]);
      lines.push(piece.lines as number[]);
      for (const tint of piece.tints) tints.push(tint);
    }
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(joined(positions), 3));
    geometry.setAttribute('normal', new BufferAttribute(joined(normals), 3));
    geometry.setAttribute('color', new BufferAttribute(this.colorsOf(tints), 3));
    const wateryOnly = tints.length > 0 && tints.every((tint) => tint === 'water');
    const surface = new MeshLambertMaterial({
      vertexColors: true,
      side: this.options.solid ? FrontSide : DoubleSide,
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
      transparent: wateryOnly,
      opacity: wateryOnly ? 0.55 : 1,
      depthWrite: !wateryOnly,
    });
    const mesh = new Mesh(geometry, surface);
    mesh.name = 'surface';
    body.group.add(mesh);
    if (this.options.solid) {
      // Seen only where the section plane has opened a solid: its inside stands for the cut face.
      const inside = new Mesh(
        geometry,
        new MeshBasicMaterial({
          color: new Color(this.palette.cut),
          side: BackSide,
          polygonOffset: true,
          polygonOffsetFactor: 2,
          polygonOffsetUnits: 2,
        }),
      );
      inside.name = 'inside';
      inside.visible = this.sectionOn;
      body.group.add(inside);
    }
    const edges = new BufferGeometry();
    edges.setAttribute('position', new BufferAttribute(joined(lines), 3));
    const strong = this.palette.highContrast || triangles === 0;
    const pen = new LineBasicMaterial({
      color: new Color(this.palette.ink),
      transparent: !strong,
      opacity: strong ? 1 : 0.5,
    });
    body.group.add(new LineSegments(edges, pen));
  }

  private colorsOf(tints: readonly Tint[]): Float32Array {
    const colors = new Float32Array(tints.length * 9);
    const color = new Color();
    tints.forEach((tint, i) => {
      color.set(tintColor(tint, this.palette));
      for (let k = 0; k < 3; k++) color.toArray(colors, i * 9 + k * 3);
    });
    return colors;
  }

  private measure(): void {
    const low = this.low.set(Infinity, Infinity, Infinity);
    const high = this.high.set(-Infinity, -Infinity, -Infinity);
    const point = new Vector3();
    for (const body of this.bodies.values()) {
      for (const { positions } of body.pieces.values()) {
        for (let i = 0; i < positions.length; i += 3) {
          point.set(positions[i], positions[i + 1], positions[i + 2]);
          low.min(point);
          high.max(point);
        }
      }
    }
    if (low.x > high.x) return;
    this.center.addVectors(low, high).multiplyScalar(0.5);
    this.radius = Math.max(1, low.distanceTo(high) / 2);
    if (this.apart === 0) return;
    const [closedLow, closedHigh] = [low.clone(), high.clone()];
    for (const body of this.bodies.values()) {
      const shift = new Vector3(...this.shiftOf(body));
      low.min(closedLow.clone().add(shift));
      high.max(closedHigh.clone().add(shift));
    }
  }

  private spread(): void {
    for (const body of this.bodies.values()) body.group.position.fromArray([...this.shiftOf(body)]);
  }

  private shiftOf(body: Body): V3 {
    if (this.apart === 0) return [0, 0, 0];
    let sum = new Vector3();
    for (const piece of body.pieces.values()) sum = sum.add(new Vector3(...piece.middle));
    const away = sum.divideScalar(Math.max(1, body.pieces.size)).sub(this.center);
    return away.multiplyScalar(this.apart * 1.1).toArray();
  }

  private showChosen(): void {
    clear(this.highlight);
    for (const key of this.chosen) {
      for (const body of this.bodies.values()) {
        const piece = body.pieces.get(key);
        if (piece) this.highlight.add(...this.highlightOf(piece, body));
      }
    }
  }

  private highlightOf(piece: Piece, body: Body): (Mesh | LineSegments)[] {
    const color = new Color(this.palette.chosen);
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(new Float32Array(piece.positions), 3));
    const glow = new Mesh(
      geometry,
      new MeshBasicMaterial({ color, transparent: true, opacity: 0.45, side: DoubleSide, depthWrite: false }),
    );
    const edges = new BufferGeometry();
    edges.setAttribute('position', new BufferAttribute(new Float32Array(piece.lines), 3));
    const rim = new LineSegments(edges, new LineBasicMaterial({ color, depthTest: false }));
    for (const object of [glow, rim]) {
      object.position.copy(body.group.position);
      object.renderOrder = 2;
    }
    return [glow, rim];
  }

  private draw(): void {
    if (this.drawing) return;
    this.drawing = true;
    requestAnimationFrame(() => {
      this.drawing = false;
      this.drawNow();
    });
  }

  private drawNow(): void {
    const { clientWidth: width, clientHeight: height } = this.element;
    if (width === 0 || height === 0) return;
    this.camera.updateMatrixWorld();
    if (this.renderer) this.renderer.render(this.scene, this.camera);
    else this.painted.replaceChildren(...this.paint());
    this.overlay.replaceChildren(...this.labelsInSight(width, height));
    this.element.dataset.eye = this.camera.position
      .toArray()
      .map((x) => x.toFixed(1))
      .join(' ');
  }

  private paint(): SVGElement[] {
    this.camera.updateMatrixWorld();
    this.painter ??= new Painter(this.polygons());
    const { clientWidth: width, clientHeight: height } = this.element;
    const polygons = this.painter.fromFarToNear(this.camera.position.toArray());
    const lines = [...this.bodies.values()].flatMap(({ pieces }) =>
      [...pieces.values()].filter(({ tints }) => tints.length === 0).map((piece) => piece.lines),
    );
    return [
      ...drawPolygons(polygons, this.camera, width, height, this.palette, new Set(this.chosen)),
      ...drawLines(lines, this.camera, width, height, this.palette),
    ];
  }

  private polygons(): Polygon3[] {
    const all: Polygon3[] = [];
    for (const body of this.bodies.values()) {
      const [dx, dy, dz] = this.shiftOf(body);
      const move = ([x, y, z]: V3): V3 => [x + dx, y + dy, z + dz];
      for (const piece of body.pieces.values()) {
        for (const polygon of piece.polygons)
          all.push({
            ...polygon,
            points: polygon.points.map(move),
            holes: polygon.holes.map((hole) => hole.map(move)),
          });
      }
    }
    if (!this.sectionOn) return all;
    const { normal, constant } = this.section;
    return all
      .map((polygon) => cut(polygon, (p) => normal.x * p[0] + normal.y * p[1] + normal.z * p[2] + constant))
      .filter((p) => p.points.length > 2);
  }

  private aspect(): number {
    return Math.max(50, this.element.clientWidth) / Math.max(50, this.element.clientHeight);
  }

  private resize(): void {
    const { clientWidth: width, clientHeight: height } = this.element;
    if (width === 0 || height === 0) return;
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
    this.renderer?.setPixelRatio(window.devicePixelRatio);
    this.renderer?.setSize(width, height, false);
    for (const layer of [this.overlay, this.painted]) layer.setAttribute('viewBox', `0 0 ${width} ${height}`);
    // At once: an emptied canvas must not be shown.
    this.drawNow();
  }

  private listen(): void {
    new ResizeObserver(() => this.resize()).observe(this.element);
    let down: { readonly x: number; readonly y: number } | undefined;
    this.element.addEventListener('pointerdown', (event) => (down = { x: event.clientX, y: event.clientY }));
    this.element.addEventListener('click', (event) => {
      if (down && Math.hypot(event.clientX - down.x, event.clientY - down.y) <= 3) this.pick(event, 'preview');
    });
    this.element.addEventListener('dblclick', (event) => this.pick(event, 'text'));
    this.element.addEventListener('keydown', (event) => this.onKey(event));
  }

  private pick(event: MouseEvent, focus: 'text' | 'preview'): void {
    const key = this.keyAt(event);
    if (key) this.events.picked(key, focus);
    else if (focus === 'preview') this.events.cleared();
  }

  private keyAt(event: MouseEvent): string | undefined {
    if (!this.renderer) return (event.target as Element).closest<SVGElement>('[data-key]')?.dataset.key;
    const box = this.element.getBoundingClientRect();
    const at = new Vector2(
      ((event.clientX - box.left) / box.width) * 2 - 1,
      1 - ((event.clientY - box.top) / box.height) * 2,
    );
    const ray = new Raycaster();
    ray.setFromCamera(at, this.camera);
    const hit = ray
      .intersectObjects(this.surfaces(), false)
      .find(({ point }) => !this.sectionOn || this.section.distanceToPoint(point) >= 0);
    if (!hit) return undefined;
    const body = [...this.bodies.values()].find(({ group }) => group === hit.object.parent);
    return body && keyOfTriangle(body, hit.faceIndex ?? 0);
  }

  private onKey(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const act = this.keys[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  }

  private readonly keys: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => this.turn(-0.12, 0),
    ArrowRight: () => this.turn(0.12, 0),
    ArrowUp: () => this.turn(0, -0.1),
    ArrowDown: () => this.turn(0, 0.1),
    '+': () => this.approach(0.85),
    '=': () => this.approach(0.85),
    '-': () => this.approach(1.18),
    '0': () => this.fit(),
  };

  private turn(around: number, over: number): void {
    const offset = this.camera.position.clone().sub(this.controls.target);
    offset.applyAxisAngle(this.camera.up, around);
    const tilt = Math.acos(Math.min(1, Math.max(-1, offset.z / offset.length())));
    const next = Math.min(Math.PI - 0.05, Math.max(0.05, tilt + over));
    const level = Math.hypot(offset.x, offset.y) || 1e-6;
    const length = offset.length();
    const [cx, cy] = [offset.x / level, offset.y / level];
    offset.set(cx * Math.sin(next) * length, cy * Math.sin(next) * length, Math.cos(next) * length);
    this.camera.position.copy(this.controls.target).add(offset);
    this.controls.update();
    this.draw();
  }

  private approach(factor: number): void {
    this.camera.position.sub(this.controls.target).multiplyScalar(factor).add(this.controls.target);
    this.controls.update();
    this.draw();
  }
}

const keyOfTriangle = ({ ranges }: Body, triangle: number): string | undefined => {
  let [low, high] = [0, ranges.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (ranges[middle].start <= triangle) low = middle;
    else high = middle - 1;
  }
  return ranges[low]?.key;
};

const makeRenderer = (): WebGLRenderer | undefined => {
  const canvas = document.createElement('canvas');
  const context = canvas.getContext('webgl2', { antialias: true, alpha: true });
  if (!context) return undefined;
  const renderer = new WebGLRenderer({ canvas, context, antialias: true, alpha: true });
  renderer.setClearColor(0x000000, 0);
  return renderer;
};

const joined = (lists: readonly (readonly number[])[]): Float32Array => {
  const out = new Float32Array(lists.reduce((sum, list) => sum + list.length, 0));
  let at = 0;
  for (const list of lists) {
    out.set(list, at);
    at += list.length;
  }
  return out;
};

/** Takes everything out of a group and gives its memory on the graphics card back. */
const clear = (group: Group): void => {
  for (const child of [...group.children]) {
    group.remove(child);
    if (child instanceof Mesh || child instanceof LineSegments) {
      child.geometry.dispose();
      child.material.dispose();
    }
  }
};
