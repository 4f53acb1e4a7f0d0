/** The sheet cut into convex blocks, ready to be placed for any set of bends already made. Lengths mm. */
import type { FlatPattern } from '../../../fold/flat-pattern.js';
import { flattenContour } from '../../../geometry/contour.js';
import {
  add2,
  addScaled2,
  dot2,
  left2,
  scale2,
  subtract2,
  unit2,
  type Vec2,
  type Vec3,
} from '../../../geometry/vec.js';
import { convexPieces } from '../../../geometry/hulls/convex.js';
import { hingeOf, inverse, type Rigid } from './rigid.js';
import { neighboursOf } from '../operations.js';

/**
 * mm. The sheet is taken thinner by this on each face: by design it touches punch, die, clamp and bed, and a machine
 * gives this much. Metal that dips into a tool by less is not reported.
 */
export const CONTACT = 0.1;

/** mm. Round edges and bends are replaced by chords that stay within this of them. */
export const CHORD = 0.02;

/** What a block belongs to: a panel or a bend of the flat, by index. */
export interface Owner {
  readonly kind: 'panel' | 'bend';
  readonly index: number;
}

/** A convex block between two rings of `corners` points each; points are x y z x y z …, the first ring first. */
export interface Block {
  readonly owner: Owner;
  readonly corners: number;
  readonly points: Float64Array;
}

export interface Body {
  readonly flat: FlatPattern;
  /** Bends that end at each panel. */
  readonly neighbours: readonly (readonly number[])[];
  /** Blocks of each panel, in the flat's coordinates (z = 0 is the face that looks up). */
  readonly panels: readonly (readonly Block[])[];
  readonly bends: readonly BendBody[];
}

export interface BendBody {
  /** The zone while it is flat. */
  readonly flatZone: Block;
  /** The zone bent fully, in the parent's coordinates. */
  readonly roll: readonly Block[];
  /** Child's flat coordinates to the parent's, bent fully; and back. */
  readonly hinge: Rigid;
  readonly back: Rigid;
}

/** Cost O(n) in corners, except panels with re-entrant outlines: O(n log n). Holes are taken as metal. */
export const bodyOf = (flat: FlatPattern): Body => ({
  flat,
  neighbours: neighboursOf(flat),
  panels: flat.panels.map(({ region }, index) =>
    convexPieces(flattenContour(region, CHORD)).map((piece) =>
      plateBlock({ kind: 'panel', index }, piece, flat.thickness),
    ),
  ),
  bends: flat.bends.map((_, i) => bendBody(flat, i)),
});

const plateBlock = (owner: Owner, polygon: Float64Array, thickness: number): Block => {
  const corners = polygon.length / 2;
  const points = new Float64Array(6 * corners);
  for (let i = 0; i < corners; i++) {
    for (let ring = 0; ring < 2; ring++) {
      const at = 3 * (i + ring * corners);
      points[at] = polygon[2 * i];
      points[at + 1] = polygon[2 * i + 1];
      points[at + 2] = ring === 0 ? CONTACT - thickness : -CONTACT;
    }
  }
  return { owner, corners, points };
};

const bendBody = (flat: FlatPattern, index: number): BendBody => {
  const bend = flat.bends[index];
  const { thickness } = flat;
  const owner: Owner = { kind: 'bend', index };
  const [parentLine, childLine] = bend.tangents;
  const along = unit2(subtract2(bend.end, bend.start));
  const across = left2(along);
  const away = dot2(subtract2(childLine[0], parentLine[0]), across) >= 0 ? across : scale2(across, -1);
  const sense = bend.direction === 'up' ? 1 : -1;
  const axisHeight = sense === 1 ? bend.radius : -thickness - bend.radius;
  const geometry = { tangent: parentLine[0], away, allowance: bend.allowance, axisHeight, sense } as const;
  const hinge = hingeOf(geometry, bend.angle);
  const zone = Float64Array.from([...parentLine[0], ...parentLine[1], ...childLine[1], ...childLine[0]]);
  const outer = bend.radius + thickness;
  const pieces = Math.max(1, Math.ceil(bend.angle / (2 * Math.acos(Math.max(0, 1 - CHORD / Math.max(outer, CHORD))))));
  const roll: Block[] = [];
  for (let i = 0; i < pieces; i++) roll.push(rollBlock(i / pieces, (i + 1) / pieces));
  return { flatZone: plateBlock(owner, zone, thickness), roll, hinge, back: inverse(hinge) };

  /** Between two shares of the turn: both ends of the bend, inner and outer radius. */
  function rollBlock(from: number, to: number): Block {
    const points: number[] = [];
    for (const end of [0, 1] as const) {
      for (const [share, radius] of [
        [from, bend.radius + CONTACT],
        [from, outer - CONTACT],
        [to, outer - CONTACT],
        [to, bend.radius + CONTACT],
      ]) {
        points.push(...rollPoint(end, share, radius));
      }
    }
    return { owner, corners: 4, points: Float64Array.from(points) };
  }

  function rollPoint(end: 0 | 1, share: number, radius: number): Vec3 {
    const angle = share * bend.angle;
    // The zone's end is taken as straight: the section of a leaning side bows off it by tenths, along the bend, at most.
    const shift = dot2(subtract2(childLine[end], parentLine[end]), along) * share;
    const foot: Vec2 = add2(parentLine[end], scale2(along, shift));
    const [x, y] = addScaled2(foot, away, radius * Math.sin(angle));
    return [x, y, axisHeight - sense * radius * Math.cos(angle)];
  }
};
