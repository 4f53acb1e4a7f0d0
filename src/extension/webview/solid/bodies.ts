/** The pieces of a scene in space, gathered into bodies that move together, as meshes for the graphics card. */
import { Group, Vector3, type Object3D } from 'three';
import type { Palette } from '../palette.js';
import { clearGroup, isInside, isSurface, meshesOf } from './meshes.js';
import type { SolidPiece, Polygon3, V3 } from './pieces.js';

interface Body {
  readonly group: Group;
  pieces: Map<string, SolidPiece>;
  /** First triangle of each piece, in order. */
  ranges: { readonly start: number; readonly key: string }[];
}

/** px. A corner so near to the pointer is meant. */
const SNAP = 12;

/** How far bodies go when taken apart fully, as a share of their distance from the middle. */
const APART = 1.1;

export class Bodies {
  readonly root = new Group();
  /** Of all bodies together where they belong, and of the box around them as they lie. */
  readonly center = new Vector3();
  readonly low = new Vector3();
  readonly high = new Vector3();
  radius = 100;
  private readonly bodies = new Map<string, Body>();
  private apart = 0;
  private opened = false;

  constructor(
    /** Solids show cut faces in a section; sheets are seen from both sides. */
    private readonly solid: boolean,
    private palette: Palette,
  ) {}

  get isEmpty(): boolean {
    return this.bodies.size === 0;
  }

  /** Pieces that are the same objects as before cost nothing. */
  set(pieces: readonly SolidPiece[]): void {
    const byBody = new Map<string, Map<string, SolidPiece>>();
    for (const piece of pieces) {
      const group = byBody.get(piece.body) ?? new Map<string, SolidPiece>();
      byBody.set(piece.body, group.set(piece.key, piece));
    }
    for (const [key, body] of this.bodies) if (!byBody.has(key)) this.drop(key, body);
    for (const [key, wanted] of byBody) {
      const body = this.bodies.get(key) ?? this.add(key);
      if (body.pieces.size === wanted.size && [...wanted].every(([k, piece]) => body.pieces.get(k) === piece)) continue;
      body.pieces = wanted;
      this.rebuild(body);
    }
    this.measure();
    this.place();
  }

  recolor(palette: Palette): void {
    this.palette = palette;
    for (const body of this.bodies.values()) this.rebuild(body);
  }

  takeApart(share: number): void {
    this.apart = share;
    this.measure();
    this.place();
  }

  /** Shows the insides of solids, which a section plane lays open. */
  open(opened: boolean): void {
    this.opened = opened;
    for (const body of this.bodies.values()) this.openBody(body);
  }

  surfaces(without?: string): Object3D[] {
    const all = [...this.bodies]
      .filter(([key]) => key !== without)
      .map(([, { group }]) => group.children.find(isSurface));
    return all.filter((surface) => surface !== undefined);
  }

  /** Key of the piece that a triangle of a surface belongs to. */
  keyOf(surface: Object3D, triangle: number): string | undefined {
    const body = [...this.bodies.values()].find(({ group }) => group === surface.parent);
    if (!body) return undefined;
    let [low, high] = [0, body.ranges.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (body.ranges[middle].start <= triangle) low = middle;
      else high = middle - 1;
    }
    return body.ranges[low]?.key;
  }

  /** Of the corners of the piece that a triangle of a surface belongs to the nearest by `distance`, px, if it is near at all. */
  cornerNear(surface: Object3D, triangle: number, distance: (point: V3) => number): V3 | undefined {
    const key = this.keyOf(surface, triangle);
    const body = [...this.bodies.values()].find(({ group }) => group === surface.parent);
    const piece = key === undefined ? undefined : body?.pieces.get(key);
    if (!body || !piece) return undefined;
    const { x, y, z } = body.group.position;
    let [best, least]: [V3 | undefined, number] = [undefined, SNAP];
    for (let i = 0; i < piece.lines.length; i += 3) {
      const corner: V3 = [piece.lines[i] + x, piece.lines[i + 1] + y, piece.lines[i + 2] + z];
      const away = distance(corner);
      if (away < least) [best, least] = [corner, away];
    }
    return best;
  }

  /** Pieces with that key, and where their body lies. */
  find(key: string): { readonly piece: SolidPiece; readonly at: Vector3 }[] {
    return [...this.bodies.values()].flatMap(({ pieces, group }) => {
      const piece = pieces.get(key);
      return piece ? [{ piece, at: group.position }] : [];
    });
  }

  /** Everything as polygons where it lies. */
  polygons(): Polygon3[] {
    return [...this.bodies.values()].flatMap(({ pieces, group }) => {
      const { x, y, z } = group.position;
      const move = (p: V3): V3 => [p[0] + x, p[1] + y, p[2] + z];
      return [...pieces.values()].flatMap(({ polygons }) =>
        polygons.map((polygon) => ({
          ...polygon,
          points: polygon.points.map(move),
          holes: polygon.holes.map((hole) => hole.map(move)),
        })),
      );
    });
  }

  /** Lines of the pieces that are nothing but lines. */
  bareLines(): ArrayLike<number>[] {
    return [...this.bodies.values()].flatMap(({ pieces }) =>
      [...pieces.values()].filter(({ tints }) => tints.length === 0).map(({ lines }) => lines),
    );
  }

  private add(key: string): Body {
    const body: Body = { group: new Group(), pieces: new Map(), ranges: [] };
    this.bodies.set(key, body);
    this.root.add(body.group);
    return body;
  }

  private drop(key: string, body: Body): void {
    clearGroup(body.group);
    this.root.remove(body.group);
    this.bodies.delete(key);
  }

  private rebuild(body: Body): void {
    clearGroup(body.group);
    const pieces = [...body.pieces.values()];
    body.ranges = [];
    let triangles = 0;
    for (const { key, tints } of pieces) {
      body.ranges.push({ start: triangles, key });
      triangles += tints.length;
    }
    body.group.add(...meshesOf(pieces, this.palette, this.solid));
    this.openBody(body);
  }

  private openBody({ group }: Body): void {
    for (const child of group.children) if (isInside(child)) child.visible = this.opened;
  }

  private measure(): void {
    const [low, high] = [this.low.setScalar(Infinity), this.high.setScalar(-Infinity)];
    const point = new Vector3();
    for (const { pieces } of this.bodies.values()) {
      for (const { positions } of pieces.values()) {
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
      const shift = this.shiftOf(body);
      low.min(closedLow.clone().add(shift));
      high.max(closedHigh.clone().add(shift));
    }
  }

  private place(): void {
    for (const body of this.bodies.values()) body.group.position.copy(this.shiftOf(body));
  }

  private shiftOf({ pieces }: Body): Vector3 {
    const sum = new Vector3();
    if (this.apart === 0) return sum;
    for (const { middle } of pieces.values()) sum.add(new Vector3(...middle));
    return sum
      .divideScalar(Math.max(1, pieces.size))
      .sub(this.center)
      .multiplyScalar(this.apart * APART);
  }
}
