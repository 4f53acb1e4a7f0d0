/** The pieces of a scene in space, gathered into bodies that move together, as meshes for the graphics card. */
import { Group, Vector3, type Mesh, type Object3D } from 'three';
import type { Palette } from '../palette.js';
import { feltMesh, keyOf } from './felt.js';
import { clearGroup, isInside, meshesOf } from './meshes.js';
import { WATER, type SolidPiece, type Polygon3, type V3 } from './piece.js';

interface Body {
  /** What a ray meets of it, where it lies; apart by whether it is seen. */
  readonly group: Group;
  seen: Mesh;
  unseen: Mesh;
  pieces: Map<string, SolidPiece>;
}

/** px. A corner so near to the pointer is meant. */
const SNAP = 12;

/** How far bodies go when taken apart fully, as a share of their distance from the middle. */
const APART = 1.1;

export class Bodies {
  /** What is drawn: all bodies in a few meshes. */
  readonly root = new Group();
  private readonly felt = new Group();
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
    const gone = [...this.bodies].filter(([key]) => !byBody.has(key));
    for (const [key, body] of gone) this.drop(key, body);
    const changed = [...byBody].filter(([key, wanted]) => !hasJust(this.bodies.get(key), wanted));
    for (const [key, wanted] of changed) this.put(key, wanted);
    if (gone.length + changed.length === 0) return;
    this.measure();
    this.place();
  }

  recolor(palette: Palette): void {
    this.palette = palette;
    this.rebuild();
  }

  takeApart(share: number): void {
    this.apart = share;
    this.measure();
    this.place();
  }

  /** Shows the insides of solids, which a section plane lays open. */
  open(opened: boolean): void {
    this.opened = opened;
    for (const child of this.root.children) if (isInside(child)) child.visible = opened;
  }

  /** What can be chosen, seen or not. */
  surfaces(): Object3D[] {
    return [...this.bodies.values()].flatMap(({ seen, unseen }) => [seen, unseen]);
  }

  /** What one cannot see through. */
  obstacles(): Object3D[] {
    return [...this.bodies].flatMap(([key, { seen }]) => (key === WATER ? [] : [seen]));
  }

  /** Of the corners of the piece that a triangle of a surface belongs to the nearest by `distance`, px, if it is near at all. */
  cornerNear(surface: Object3D, triangle: number, distance: (point: V3) => number): V3 | undefined {
    const key = keyOf(surface, triangle);
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
      [...pieces.values()].filter(({ polygons }) => polygons.length === 0).map(({ lines }) => lines),
    );
  }

  private put(key: string, pieces: Map<string, SolidPiece>): void {
    const before = this.bodies.get(key);
    if (before) this.drop(key, before);
    const [group, all] = [new Group(), [...pieces.values()]];
    const seen = feltMesh(
      all.filter(({ isUnseen }) => !isUnseen),
      this.solid,
    );
    const unseen = feltMesh(
      all.filter(({ isUnseen }) => isUnseen),
      this.solid,
    );
    this.felt.add(group.add(seen, unseen));
    this.bodies.set(key, { group, seen, unseen, pieces });
  }

  private drop(key: string, { group }: Body): void {
    clearGroup(group);
    this.felt.remove(group);
    this.bodies.delete(key);
  }

  private rebuild(): void {
    clearGroup(this.root);
    const placed = [...this.bodies.values()].flatMap(({ pieces, group }) =>
      [...pieces.values()].map((piece) => ({ piece, at: group.position })),
    );
    this.root.add(...meshesOf(placed, this.palette, this.solid));
    this.open(this.opened);
  }

  private measure(): void {
    const [low, high] = [this.low.setScalar(Infinity), this.high.setScalar(-Infinity)];
    const point = new Vector3();
    for (const { pieces } of this.bodies.values()) {
      for (const { positions, isAside } of pieces.values()) {
        if (isAside) continue;
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
    this.felt.updateMatrixWorld();
    this.rebuild();
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

const hasJust = (body: Body | undefined, wanted: ReadonlyMap<string, SolidPiece>): boolean =>
  body?.pieces.size === wanted.size && [...wanted].every(([key, piece]) => body.pieces.get(key) === piece);
