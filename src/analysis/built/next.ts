/** What to do next with a strip that came out otherwise: bend, correct, slit, shim or cut again. */
import { memoBy } from '../cache/memo.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { distance, type Vec3 } from '../geometry/vec.js';
import type { PanelIndex, Seam, Tub } from '../model/tub.js';
import { madePoints, type MadeStrip } from './as-made.js';
import { firstCorrection, largestGap } from './closing.js';
import { gapsOf, type Contact, type StretchGap } from './contact.js';

/** How a cut part meets the strip as made, its open bends made as they close best. */
export interface CutMeeting {
  readonly panel: PanelIndex;
  readonly gaps: readonly StretchGap[];
  /** Largest, either way, mm. */
  readonly largest: number;
  readonly slit: Slit | undefined;
}

/** The part cut open from its edge at a corner of the strip, so that both halves can be moved by themselves. */
export interface Slit {
  /** Of the profile. */
  readonly corner: number;
  /** Largest gap that is left then, mm. */
  readonly left: number;
}

export const meetingsOf = memoBy((strip: MadeStrip): readonly CutMeeting[] => {
  const { profile, task } = strip;
  const made = madePoints(strip);
  return task.contacts.flatMap((contact): CutMeeting[] => {
    if (contact.panel === undefined) return [];
    const gaps = gapsOf(profile.points, made, contact);
    return [{ panel: contact.panel, gaps, largest: largestOf(gaps), slit: bestSlit(strip, contact) }];
  });
});

export const largestOf = (gaps: readonly StretchGap[]): number =>
  gaps.reduce((most, { start, end }) => Math.max(most, Math.abs(start), Math.abs(end)), 0);

/** Do the members of a seam join a cut panel to the strip? */
export const isSeamOf = ({ members: [a, b] }: Seam, legs: readonly PanelIndex[], panel: PanelIndex): boolean => {
  const isOn = (ones: readonly PanelIndex[], others: readonly PanelIndex[]): boolean =>
    ones.includes(panel) && others.some((leg) => legs.includes(leg));
  return isOn(a.panels, b.panels) || isOn(b.panels, a.panels);
};

/** How far cut parts stand off strips along a seam at most, either way, mm. */
export const standingOff = (tub: Tub, strips: readonly MadeStrip[], seam: Seam): number =>
  strips.reduce((most, strip) => {
    const { panels } = tub.strips[strip.strip];
    const isJoined = ({ panel }: Contact): boolean => panel !== undefined && isSeamOf(seam, panels, panel);
    const gaps = strip.task.contacts
      .filter(isJoined)
      .map((contact) => gapsOf(strip.profile.points, madePoints(strip), contact));
    return Math.max(most, ...gaps.map(largestOf));
  }, 0);

/** At which one corner a slit leaves the smallest largest gap. */
const bestSlit = (strip: MadeStrip, { panel, stretches }: Contact): Slit | undefined => {
  const made = madePoints(strip);
  let best: Slit | undefined;
  for (let corner = 1; corner + 1 < made.length; corner++) {
    const halves = [stretches.filter(({ leg }) => leg < corner), stretches.filter(({ leg }) => leg >= corner)];
    if (halves.some((half) => half.length === 0)) continue;
    const left = Math.max(
      ...halves.map((half) => largestOf(gapsOf(strip.profile.points, made, { panel, stretches: half }))),
    );
    if (!best || left < best.left) best = { corner, left };
  }
  return best;
};

/** The bend that is made and had best be corrected first, where the text says that it may be. */
export interface FirstCorrection {
  /** Index into `Tub.bends`. */
  readonly bend: number;
  /** rad, deviation from flat: as it came out, and as it had best be. */
  readonly from: number;
  readonly to: number;
  /** Largest gap that is left before and after, mm. */
  readonly before: number;
  readonly after: number;
}

export const firstCorrectionOf = memoBy((strip: MadeStrip): FirstCorrection | undefined => {
  const { made, task, open, read, profile, folding } = strip;
  if (!made.mayCorrect) return undefined;
  const found = firstCorrection(task, open, read);
  if (!found) return undefined;
  return {
    bend: profile.bends[found.bend].bend,
    from: Math.abs(folding.turns[found.bend]),
    to: Math.abs(found.turn),
    before: largestGap(task, folding.turns),
    after: largestGap(task, found.turns),
  };
});

/** Panels whose outline is no longer the one that was drawn: where a corner is another distance from those beside it or next to them. */
export const reshapedPanels = (drawn: Tub, made: Tub): PanelIndex[] =>
  made.panels.flatMap((panel, i) => {
    const [from, to] = [spansOf(drawn.panels[i].corners), spansOf(panel.corners)];
    return from.some((span, k) => Math.abs(span - to[k]) > SAME_POINT) ? [i] : [];
  });

const spansOf = (corners: readonly Vec3[]): number[] =>
  corners.flatMap((corner, k) => [1, 2].map((step) => distance(corner, corners[(k + step) % corners.length])));
