/** Rivets and screws along a run: where each goes through which sheets. */
import { addScaled, type Vec3 } from '../../geometry/vec.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import type { FastenerRow, SeamStyle, Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';
import { contactOf, type TabContact } from '../tabs/contact.js';
import { canTurnTabs } from '../tabs/tab-pieces.js';
import type { PlacedRow } from '../tabs/tab-rows.js';
import { pointOnRun, type SeamRun } from '../seam/seam-runs.js';

/** One rivet or screw. The sheet next to the panel lies on its dry face or, at a foot, on the skin on which the other stands. */
export interface FastenerPlace {
  /** Middle of the hole, on the face of the panel that `normal` leaves. */
  readonly point: Vec3;
  readonly normal: Vec3;
  /** Holes of panels; a tab or clip has its own. */
  readonly holes: readonly PanelPlace[];
  readonly leg: FastenedLeg | undefined;
  /** Thickness of the panel, and of the lap, tab or clip on it. */
  readonly stack: readonly [number, number];
  /** Where the second sheet lies: below the panel's dry face, or above the skin that `normal` leaves. */
  readonly second: 'below' | 'above';
  /** Between the two, filled by a gasket or not, mm. */
  readonly apart: number;
  /** Least distance to the ends of the lap or leg, along and across. */
  readonly along: number;
  readonly across: number;
  /** Do the heads lie on the second sheet? */
  readonly headsOnSecond: boolean;
  /** Sheet that carries a rivet nut: the panel, the second one, or none. */
  readonly nutIn: 'panel' | 'second' | undefined;
}

/** In a panel, which is the first or the second of the sheets that lie on one another. */
export interface PanelPlace {
  readonly face: FaceIndex;
  readonly point: Vec3;
  readonly sheet: 'panel' | 'second';
}

/** Through which leg of a row. */
export interface FastenedLeg {
  /** Index into the row's centres, and the side that it lies on. */
  readonly centre: number;
  readonly side: 0 | 1;
  /** From the middle of the leg along the run, and from its end. */
  readonly aside: number;
  readonly fromEnd: number;
}

/** All of one run, in its direction; empty where nothing lies on one another. Cost: linear in them. */
export const fastenerPlacesOf = (tub: Tub, run: SeamRun, row: PlacedRow | undefined): readonly FastenerPlace[] => {
  const { fasteners, style } = tub.seams[run.seam];
  if (!fasteners) return [];
  if (row) return throughLegs(tub, row, fasteners);
  return style.kind === 'lap' && run.footing === undefined ? throughLap(run, style, fasteners) : [];
};

/** Evenly, with half a share at both ends, so that none stands farther from the next than stated. */
export const fastenerCount = (length: number, every: number): number =>
  Math.max(1, Math.ceil(length / every - ROUND_OFF));

type LapStyle = Extract<SeamStyle, { kind: 'lap' }>;

const throughLap = (run: SeamRun, { by, lapping: over }: LapStyle, row: FastenerRow): readonly FastenerPlace[] => {
  const count = fastenerCount(run.length, row.every);
  const share = run.length / count;
  const [lapping, under] = over === 0 ? run.sides : [run.sides[1], run.sides[0]];
  return Array.from({ length: count }, (_, i): FastenerPlace => {
    const at = pointOnRun(run, (i + 0.5) * share);
    const point = addScaled(at, under.inward, by / 2);
    return {
      point,
      normal: under.normal,
      holes: [
        { face: lapping.face, point: addScaled(at, lapping.inward, -by / 2), sheet: 'second' },
        { face: under.face, point, sheet: 'panel' },
      ],
      leg: undefined,
      stack: [under.thickness, lapping.thickness],
      second: 'below',
      apart: 0,
      along: share / 2,
      across: by / 2,
      headsOnSecond: row.headsOn === undefined || row.headsOn === over,
      nutIn: row.nutsIn === undefined ? undefined : row.nutsIn === over ? 'second' : 'panel',
    };
  });
};

const throughLegs = (tub: Tub, row: PlacedRow, fasteners: FastenerRow): readonly FastenerPlace[] => {
  if (row.tabs.on !== 'loose' && !canTurnTabs(row)) return [];
  return ([0, 1] as const).flatMap((side) => {
    const contact = contactOf(tub, row, side);
    return contact && contact.to > contact.from ? throughLeg(tub, row, contact, fasteners) : [];
  });
};

const throughLeg = (
  tub: Tub,
  { run, tabs, carrier, centres }: PlacedRow,
  { side, from, to }: TabContact,
  fasteners: FastenerRow,
): readonly FastenerPlace[] => {
  const { face, normal, inward, thickness } = run.sides[side];
  const own = tub.sheets[tub.panels[run.sides[carrier].face].sheet].thickness;
  const count = fastenerCount(tabs.wide, fasteners.every);
  const share = tabs.wide / count;
  const across = (to - from) / 2;
  const memberOfLeg = tabs.on === 'loose' ? undefined : carrier;
  return centres.flatMap((middle, centre) =>
    Array.from({ length: count }, (_, i): FastenerPlace => {
      const aside = (i + 0.5) * share - tabs.wide / 2;
      const point = addScaled(pointOnRun(run, middle + aside), inward, (from + to) / 2);
      return {
        point,
        normal,
        holes: [{ face, point, sheet: 'panel' }],
        leg: { centre, side, aside, fromEnd: across },
        stack: [thickness, own],
        second: run.footing === side ? 'above' : 'below',
        apart: 0,
        along: share / 2,
        across,
        headsOnSecond: memberOfLeg === undefined || fasteners.headsOn !== side,
        nutIn: fasteners.nutsIn === undefined ? undefined : fasteners.nutsIn === memberOfLeg ? 'second' : 'panel',
      };
    }),
  );
};
