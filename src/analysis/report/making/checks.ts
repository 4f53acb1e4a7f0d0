/** What is measured on the bench: each leg against level, and the profile over the outside, as they leave. */
import { memoBy } from '../../cache/memo.js';
import { ROUND_OFF, SAME_TURN } from '../../geometry/tolerance.js';
import { flattenContour } from '../../geometry/contour.js';
import { addScaled, distance2, type Vec2, type Vec3 } from '../../geometry/vec.js';
import type { FlatBend, FlatPattern } from '../../fold/flat-pattern.js';
import type { Outlet } from '../../model/tub.js';
import { legsOf } from '../../solid/bodies/fastened-legs.js';
import { meshOf } from '../../solid/boundary/mesh.js';
import type { Stages } from '../../stages/stages.js';
import { flatsOfParts } from '../../stages/flats-to-cut.js';
import { reportDegrees, reportLength } from '../numbers.js';
import type { Column } from '../table.js';

export interface ChecksReport {
  /** All of the metal with its clips, rivets, screws and spouts, without rivet nuts and strainers; null: none of it can be folded. */
  readonly overall: OverallSize | null;
  readonly legs: readonly LegRow[];
  readonly profile: readonly ProfileRow[];
}

/** Outside, with true radii, as it stands. */
export interface OverallSize {
  /** Left to right. */
  readonly width_mm: number;
  /** Front to back. */
  readonly depth_mm: number;
  readonly height_mm: number;
  /** Its lowest place, up in the tub. */
  readonly lowest_mm: number;
}

/** A panel as it stands in the tub. Each is measured against level, so that errors of bends do not add up unseen. */
export interface LegRow {
  readonly part: string;
  readonly panel: string;
  /** 0: level, 90: upright. */
  readonly to_level_deg: number;
}

/** A panel measured across a bend or two, over the outside of the metal: from sharp corner to sharp corner or to the cut edge. */
export interface ProfileRow {
  readonly part: string;
  readonly panel: string;
  readonly from: string;
  readonly to: string;
  readonly over_outside_mm: number;
}

export const reportChecks = (stages: Stages): ChecksReport => {
  const { faces } = stages.shape();
  const cut = flatsOfParts(stages);
  const legs = stages.parts().flatMap((part) =>
    part.faces.flatMap((face): LegRow[] => {
      const { name, frame, usable } = faces[face];
      if (!usable) return [];
      const toLevel = Math.acos(Math.min(1, Math.abs(frame.normal[2])));
      return [{ part: part.name, panel: name, to_level_deg: reportDegrees(toLevel) }];
    }),
  );
  return { overall: overallOf(stages), legs, profile: cut.flatMap((flat) => (flat ? profileOf(flat) : [])) };
};

/** mm. Chords of the bends. */
const CHORD_ERROR = 0.01;

const overallOf = memoBy((stages: Stages): OverallSize | null => {
  const least: [number, number, number] = [Infinity, Infinity, Infinity];
  const most: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  const parts = stages.folded().filter((part) => part !== undefined);
  if (parts.length === 0) return null;
  for (const point of [
    ...[...parts, ...stages.fasteners()].flatMap((part) => meshOf(part, CHORD_ERROR).positions),
    ...clipEnds(stages),
    ...stages.tub.outlets.flatMap((outlet) => lipEnds(stages, outlet)),
  ]) {
    for (const k of [0, 1, 2] as const) {
      least[k] = Math.min(least[k], point[k]);
      most[k] = Math.max(most[k], point[k]);
    }
  }
  const [width, depth, height] = least.map((low, k) => reportLength(most[k] - low));
  return { width_mm: width, depth_mm: depth, height_mm: height, lowest_mm: reportLength(least[2]) };
});

/** Corners of the boxes about all clips; tabs of one piece are part of their panels. */
const clipEnds = ({ tub, joints }: Stages): Vec3[] =>
  joints()
    .seams.flatMap(({ runs }) => runs)
    .filter(({ row }) => row?.tabs.on === 'loose')
    .flatMap((run) => legsOf(tub, run).flatMap(({ band }) => [band.low, band.high]));

/** The box about the end of a round spout below its panel, whose metal is as thick as the panel's at most. */
const lipEnds = (stages: Stages, { panel, center, diameter, lip }: Outlet): Vec3[] => {
  const { usable, frame } = stages.shape().faces[panel];
  if (lip === 0 || diameter === 0 || !usable) return [];
  const { thickness } = stages.tub.sheets[stages.tub.panels[panel].sheet];
  const end = addScaled(center, frame.normal, -thickness - lip);
  const radius = diameter / 2 + thickness;
  const reach = frame.normal.map((n) => radius * Math.sqrt(Math.max(0, 1 - n * n)));
  return [-1, 1].map((sign): Vec3 => [end[0] + sign * reach[0], end[1] + sign * reach[1], end[2] + sign * reach[2]]);
};

/** rad. Of sharper bends the corner lies far from the metal, so nothing is measured to it. */
const SHARPEST = (150 * Math.PI) / 180;

/** Panels between two bends that are parallel, or between a bend and a cut edge that is parallel to it. */
const profileOf = (flat: FlatPattern): ProfileRow[] =>
  flat.panels.flatMap(({ name, face, region }, panel) => {
    if (face === undefined) return [];
    const bends = flat.bends.filter(
      ({ bend, parent, child, angle }) => bend !== undefined && [parent, child].includes(panel) && angle < SHARPEST,
    );
    const corners = flattenContour(region, ROUND_OFF);
    return bends.flatMap((bend, i): ProfileRow[] => {
      const alike = bends.filter((other) => isParallel(bend, other));
      const across = acrossFrom(bend, corners);
      const opposite = alike.find((other) => across(other.start) > bend.allowance);
      const row = { part: flat.name, panel: name, from: bend.name };
      if (opposite) {
        // Told once, from the first of the two.
        if (bends.indexOf(opposite) < i) return [];
        const outside = across(opposite.start) + beyond(flat, bend) + beyond(flat, opposite);
        return [{ ...row, to: opposite.name, over_outside_mm: reportLength(outside) }];
      }
      const edge = cutEdge(flat, corners, across);
      return edge === undefined
        ? []
        : [{ ...row, to: 'edge', over_outside_mm: reportLength(edge + beyond(flat, bend)) }];
    });
  });

/** What the sharp corner of the outside is farther than the middle of the zone, laid flat: (R + T) tan(angle / 2) - allowance / 2. */
const beyond = ({ thickness }: FlatPattern, { radius, angle, allowance }: FlatBend): number =>
  (radius + thickness) * Math.tan(angle / 2) - allowance / 2;

type Across = (point: Vec2) => number;

/** Distance from the middle of a bend's zone, towards its panel. */
const acrossFrom = ({ start, end }: FlatBend, corners: readonly Vec2[]): Across => {
  const length = distance2(start, end);
  const left: Across = ([x, y]) =>
    ((end[0] - start[0]) * (y - start[1]) - (end[1] - start[1]) * (x - start[0])) / length;
  const side = Math.sign(corners.reduce((sum, corner) => sum + left(corner), 0));
  return (point) => side * left(point);
};

const isParallel = (a: FlatBend, b: FlatBend): boolean => {
  const turn = (a.end[0] - a.start[0]) * (b.end[1] - b.start[1]) - (a.end[1] - a.start[1]) * (b.end[0] - b.start[0]);
  return Math.abs(turn) <= SAME_TURN * distance2(a.start, a.end) * distance2(b.start, b.end);
};

/** The farthest of a panel, where it is an edge that is cut parallel to the bend; undefined where it ends in a corner. */
const cutEdge = ({ outline }: FlatPattern, corners: readonly Vec2[], across: Across): number | undefined => {
  const far = Math.max(...corners.map(across));
  const isFar = (x: number, y: number): boolean => Math.abs(across([x, y]) - far) <= ROUND_OFF;
  const isCut = outline.some(({ x, y, bulge }, i) => {
    const to = outline[(i + 1) % outline.length];
    return bulge === 0 && isFar(x, y) && isFar(to.x, to.y);
  });
  return isCut ? far : undefined;
};

export const LEG_COLUMNS: readonly Column<LegRow>[] = [
  { key: 'panel', head: 'Panel', value: (row) => row.panel },
  { key: 'part', head: 'Part', value: (row) => row.part },
  { key: 'to_level_deg', head: 'To level', value: (row) => row.to_level_deg, places: 1 },
];

export const PROFILE_COLUMNS: readonly Column<ProfileRow>[] = [
  { key: 'panel', head: 'Panel', value: (row) => row.panel },
  { key: 'from', head: 'From bend', value: (row) => row.from },
  { key: 'to', head: 'To', value: (row) => row.to },
  { key: 'over_outside_mm', head: 'Over the outside', value: (row) => row.over_outside_mm, places: 1 },
];
