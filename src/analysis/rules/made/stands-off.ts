import type { MadeStrip } from '../../built/as-made.js';
import { isSeamOf, meetingsOf, type CutMeeting } from '../../built/next.js';
import type { StretchGap } from '../../built/contact.js';
import type { SeamJoint } from '../../join/seam-joint.js';
import type { Related } from '../../model/finding.js';
import { HAND_ROUNDED } from '../../model/tolerance.js';
import { inMm, named } from '../../model/wording.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const standsOff: Rule = {
  code: 'made/stands-off',
  severity: 'warning',
  *check(stages) {
    for (const strip of stages.built.strips) {
      yield;
      for (const meeting of meetingsOf(strip)) {
        const seam = seamBetween(stages, strip, meeting.panel);
        if (seam && meeting.largest > seam.allowed) yield findingOf(stages, strip, meeting, seam);
      }
    }
    yield* topsMoved(stages);
  },
};

/** Cut dividers across a strip that keep their size: their tops come elsewhere. */
function* topsMoved({ tub, planned }: Stages): Iterable<RuleFinding> {
  const drawn = planned()?.tub.panels;
  for (const { panel, at } of drawn ? (tub.made ?? []) : []) {
    const { name, kind, edgeNames, corners } = tub.panels[panel];
    if (kind.kind !== 'points' || edgeNames.top === undefined) continue;
    const [is, was] = [corners, drawn![panel].corners].map((each) => Math.max(...each.map(([, , z]) => z)));
    if (Math.abs(is - was) <= HAND_ROUNDED) continue;
    yield {
      severity: 'info',
      message: `${named(name)} is cut and stands on what was read: its top comes to ${inMm(is, was)} (planned ${inMm(was, is)})`,
      at,
      about: [name],
      values: { top_mm: is, planned_mm: was },
    };
  }
}

const seamBetween = ({ tub, joints }: Stages, strip: MadeStrip, panel: number): SeamJoint | undefined =>
  joints().seams.find(({ seam }) => isSeamOf(tub.seams[seam], tub.strips[strip.strip].panels, panel));

const findingOf = (stages: Stages, strip: MadeStrip, meeting: CutMeeting, seam: SeamJoint): RuleFinding => {
  const { tub } = stages;
  const { panel, gaps, largest } = meeting;
  const legs = tub.strips[strip.strip].panels;
  const worst = gaps.find(({ start, end }) => Math.max(Math.abs(start), Math.abs(end)) === largest)!;
  const isOpen = Math.max(worst.start, worst.end) === largest;
  const { name, at } = tub.panels[panel];
  const made = (tub.made ?? []).find((each) => each.panel === panel);
  return {
    message: `${named(name)} is cut and, moved to where it fits best, ${isOpen ? 'stands open' : 'is too long'} by up to ${inMm(largest, seam.allowed)} along ${named(tub.panels[legs[worst.leg]].name)} as made (0 mm as planned); ${seam.method.name} closes ${inMm(seam.allowed, largest)}`,
    at: made?.at ?? at,
    about: [name, tub.strips[strip.strip].name],
    related: remediesOf(stages, strip, meeting, seam.allowed),
    values: { gap_mm: largest, closes_mm: seam.allowed, planned_mm: 0 },
    measure: { has: largest, needs: seam.allowed, better: 'less' },
  };
};

/** Where to shim, file, slit: a size for each. */
const remediesOf = (stages: Stages, strip: MadeStrip, meeting: CutMeeting, allowed: number): readonly Related[] => {
  const { tub } = stages;
  const legs = tub.strips[strip.strip].panels;
  const at = tub.panels[meeting.panel].at;
  const ofLeg = (gap: StretchGap): Related[] => {
    const leg = tub.panels[legs[gap.leg]];
    const length = inMm(strip.moved.lengths[gap.leg] * (gap.to - gap.from));
    const [most, least] = [Math.max(gap.start, gap.end), Math.min(gap.start, gap.end)];
    const shim = `Shim: a strip of ${length} by ${inMm(most)} along ${named(leg.name)}`;
    const file = `Take off up to ${inMm(-least)} along ${length} at ${named(leg.name)}`;
    return [
      ...(most > allowed ? [{ at: leg.at, message: shim }] : []),
      ...(-least > allowed ? [{ at: leg.at, message: file }] : []),
    ];
  };
  const { slit, largest } = meeting;
  const [a, b] = slit ? [tub.panels[legs[slit.corner - 1]], tub.panels[legs[slit.corner]]] : [];
  const isWorth = slit !== undefined && a !== undefined && b !== undefined && slit.left < largest;
  return [
    ...meeting.gaps.flatMap(ofLeg),
    ...(isWorth
      ? [
          {
            at,
            message: `Slit it from the corner of ${named(a.name)} and ${named(b.name)}, both halves moved by themselves: ${inMm(slit.left)} are left`,
          },
        ]
      : []),
    { at, message: 'Cut it again: without its `made` its flat follows what was read' },
  ];
};
