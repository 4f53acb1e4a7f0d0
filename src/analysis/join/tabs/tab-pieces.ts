/** Tabs of one piece with their panel: where each stands, how it is bent, and what it needs cut. */
import { chooseKFactor, allowanceOf, setbackOf } from '../../material/bend-allowance.js';
import { leastKerfOf } from '../../model/shop/default-shop.js';
import type { Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';
import { deviationOf, pointOnRun } from '../seam/seam-runs.js';
import { stepDown, type StepDown } from './step-down.js';
import { isSetDown, needsClipBend, tabBendOf, type PlacedRow } from './tab-rows.js';
import type { Vec3 } from '../../geometry/vec.js';

export interface TabPiece {
  readonly name: string;
  readonly face: FaceIndex;
  /** Middle of the tab on the panel's wet sharp edge. */
  readonly point: Vec3;
  readonly wide: number;
  /** From the sharp edge outward: the panel's own cut edge, and the tangent line at which the bend begins. */
  readonly edge: number;
  readonly bendStart: number;
  readonly allowance: number;
  readonly angle: number;
  /** As the flat is seen, on its dry side: `up` turns to the dry side. */
  readonly direction: 'up' | 'down';
  readonly radius: number;
  readonly thickness: number;
  readonly kFactor: number;
  /** Flat length behind the bend. */
  readonly leg: number;
  /** Notch on each side where the bend begins within the panel; undefined where the tab has a neck outside it. */
  readonly notch: { readonly width: number; readonly depth: number } | undefined;
  /** Of a lap that is set down: flat length of the slope between its first bend and a second one that turns back. */
  readonly step?: { readonly slope: number; readonly angle: number; readonly allowance: number };
}

/** Tabs go around the other panel onto its dry face, so the panels must rise from each other. */
export const canTurnTabs = (row: PlacedRow): boolean =>
  row.run.footing !== undefined || isSetDown(row) || (needsClipBend(row.run) && row.run.corner < Math.PI);

/**
 * Tabs of one row; none for clips, for panels that turn away from each other, and where the leg is shorter than its bend.
 *
 * Folded, the tab's inner face lies on the other panel's dry face, T / sin corner beyond the wet edge; the bend begins its
 * setback before that, and `inset` earlier still: so much the tab pulls. Where that is inside the panel's own edge, a notch one
 * thickness wide (or the shop's narrowest cut, if wider) goes half a thickness past the tangent line on each side. Common practice, no source.
 */
export const tabPiecesOf = (tub: Tub, row: PlacedRow): readonly TabPiece[] => {
  const { run, tabs, carrier, centres } = row;
  if (run.footing !== undefined) return footTabsOf(tub, row);
  if (tabs.on === 'loose' || !canTurnTabs(row)) return [];
  if (isSetDown(row)) return setDownPieces(tub, row);
  const [own, other] = [run.sides[carrier], run.sides[1 - carrier]];
  const panel = tub.panels[own.face];
  const sheet = tub.sheets[panel.sheet];
  const { thickness, radius } = sheet;
  const angle = deviationOf(run);
  const { kFactor } = chooseKFactor({ sheet, radius, bendKFactor: undefined, cutK: panel.cutK });
  const bend = { angle, radius, thickness };
  const setback = setbackOf({ ...bend, wet: 'inside' });
  const leg = tabs.deep - setback;
  if (leg <= 0) return [];
  const bendStart = other.thickness / Math.sin(run.corner) - tabs.inset - setback;
  const notch =
    bendStart < own.runOn
      ? { width: Math.max(thickness, leastKerfOf(tub)), depth: own.runOn - bendStart + thickness / 2 }
      : undefined;
  return centres.map((at): TabPiece => ({
    name: tabs.isLap ? lapName(tub, row) : `${panel.name} tab`,
    face: own.face,
    point: pointOnRun(run, at),
    wide: tabs.wide,
    edge: own.runOn,
    bendStart,
    allowance: allowanceOf({ ...bend, kFactor }),
    angle,
    direction: 'down',
    radius,
    thickness,
    kFactor,
    leg,
    notch,
  }));
};

/** Told by what it lies on: one panel may lap onto several. */
const lapName = (tub: Tub, { run, carrier }: PlacedRow): string =>
  `${tub.panels[run.sides[carrier].face].name} lap on ${tub.panels[run.sides[1 - carrier].face].name}`;

/** The step of a lap in one plane or nearly so: as deep as the other sheet is thick. */
export const stepOf = (tub: Tub, { run, carrier }: PlacedRow): StepDown & { readonly depth: number } => {
  const { thickness, radius } = tub.sheets[tub.panels[run.sides[carrier].face].sheet];
  const depth = run.sides[1 - carrier].thickness;
  return { depth, ...stepDown({ depth, rise: Math.PI - run.corner, radius, thickness }) };
};

/** The leg of a lap in one plane or nearly so: a step down along the edge, within the panel, and then the lap. */
const setDownPieces = (tub: Tub, row: PlacedRow): readonly TabPiece[] => {
  const { run, tabs, carrier, centres } = row;
  const own = run.sides[carrier];
  const panel = tub.panels[own.face];
  const sheet = tub.sheets[panel.sheet];
  const { thickness, radius } = sheet;
  const { kFactor } = chooseKFactor({ sheet, radius, bendKFactor: undefined, cutK: panel.cutK });
  const { angle, back, slope, length } = stepOf(tub, row);
  const step = { slope, angle: back, allowance: allowanceOf({ angle: back, radius, thickness, kFactor }) };
  return centres.map((at): TabPiece => ({
    name: lapName(tub, row),
    face: own.face,
    point: pointOnRun(run, at),
    wide: tabs.wide,
    edge: own.runOn,
    bendStart: -length,
    allowance: allowanceOf({ angle, radius, thickness, kFactor }),
    angle,
    direction: 'up',
    radius,
    thickness,
    kFactor,
    leg: tabs.deep,
    notch: { width: Math.max(thickness, leastKerfOf(tub)), depth: own.runOn + length + thickness / 2 },
    step,
  }));
};

/** Bend and leg of a tab that lies on the face its panel stands on, on the dry side: its wet skin lies on the face. */
const footBend = (tub: Tub, row: PlacedRow): { readonly setback: number; readonly leg: number } => {
  const { thickness, radius } = tub.sheets[tub.panels[row.run.sides[row.carrier].face].sheet];
  const setback = setbackOf({ ...tabBendOf(row), radius, thickness });
  return { setback, leg: row.tabs.deep - setback };
};

/** The notches go as deep as for other tabs; the rest of the edge stands on the face. */
const footTabsOf = (tub: Tub, row: PlacedRow): readonly TabPiece[] => {
  const { run, carrier, centres } = row;
  const own = run.sides[carrier];
  const panel = tub.panels[own.face];
  const sheet = tub.sheets[panel.sheet];
  const { thickness, radius } = sheet;
  const { setback, leg } = footBend(tub, row);
  if (leg <= 0) return [];
  const { kFactor } = chooseKFactor({ sheet, radius, bendKFactor: undefined, cutK: panel.cutK });
  return centres.map((at): TabPiece => ({
    name: `${panel.name} tab`,
    face: own.face,
    point: pointOnRun(run, at),
    wide: row.tabs.wide,
    edge: own.runOn,
    bendStart: -setback,
    allowance: allowanceOf({ angle: run.corner, radius, thickness, kFactor }),
    angle: run.corner,
    direction: 'up',
    radius,
    thickness,
    kFactor,
    leg,
    notch: { width: Math.max(thickness, leastKerfOf(tub)), depth: own.runOn + setback + thickness / 2 },
  }));
};
