/** Leaks in words and numbers, the same for every check that reports one. */
import type { Finding, Related } from '../model/finding.js';
import type { Tub } from '../model/tub.js';
import type { RuleFinding } from './rule.js';
import { atPoint, inMm, named } from '../model/wording.js';
import type { Leak } from '../seal/leak.js';

/** Point, length, gap, height and flood level: what every finding of a leak carries. */
export const leakValues = (leak: Leak): Finding['values'] => ({
  x_mm: leak.point[0],
  y_mm: leak.point[1],
  z_mm: leak.point[2],
  height_mm: leak.height,
  length_mm: leak.length,
  gap_mm: leak.gap,
  flood_level_mm: leak.flood,
  under_water: leak.isUnderWater,
  as_drawn: leak.isAsDrawn,
  ...(leak.isInside ? { to_next_chamber: true } : {}),
});

/** Names of the panels it lies between, then of the seam it belongs to. */
export const leakNames = (tub: Tub, leak: Leak): readonly string[] => [
  ...leak.faces.map((face) => tub.panels[face].name),
  ...(leak.seam === undefined ? [] : [tub.seams[leak.seam].name]),
  ...(leak.faceJoint === undefined ? [] : [tub.faceJoints![leak.faceJoint].name]),
];

/** `` `floor` and `wall` ``. */
export const panelNames = (tub: Tub, leak: Leak): string =>
  leak.faces.map((face) => named(tub.panels[face].name)).join(' and ');

/** How high the water will stand over it, or that none does; and where it goes if not out of the tub. */
export const waterOver = (leak: Leak): string => {
  const over = leak.isUnderWater
    ? `water stands ${inMm(leak.flood - leak.height)} over it`
    : 'it stays dry but for what runs or splashes there';
  return leak.isInside ? `${over} and gets by to the next chamber` : over;
};

/** What lets liquid out of the tub is an error where it stands; what lets it by to the next chamber is not. */
export const severityOf = (leak: Leak): 'error' | 'warning' =>
  leak.isUnderWater && !leak.isInside ? 'error' : 'warning';

/** Where it is, and the other panels, for the list below the message. */
export const leakPlaces = (tub: Tub, leak: Leak): readonly Related[] => [
  { at: tub.panels[leak.faces[0]].at, message: `Its lowest point is at ${atPoint(leak.point)}; ${waterOver(leak)}` },
  ...leak.faces
    .slice(1)
    .map((face) => ({ at: tub.panels[face].at, message: `${named(tub.panels[face].name)} is on the other side` })),
];

const placeOf = (tub: Tub, { seam, faceJoint, faces }: Leak): Finding['at'] => {
  if (seam !== undefined) return tub.seams[seam].at;
  return faceJoint === undefined ? tub.panels[faces[0]].at : tub.faceJoints![faceJoint].at;
};

/** A finding of a leak, all but its message. */
export const leakFinding = (tub: Tub, leak: Leak): Pick<RuleFinding, 'at' | 'about' | 'related' | 'values'> => ({
  at: placeOf(tub, leak),
  about: leakNames(tub, leak),
  related: leakPlaces(tub, leak),
  values: leakValues(leak),
});
