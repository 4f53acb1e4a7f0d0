import type { Related } from '../../model/finding.js';
import type { RunJoint, SeamJoint } from '../../join/seam-joint.js';
import { holdWithin, leadingShare, withinOf } from '../../join/seam/seam-gap.js';
import type { Leak } from '../../seal/leak.js';
import { leakFinding, severityOf } from '../tell-leak.js';
import type { Stages } from '../../stages/stages.js';
import { inDeg, inMm, inN, named, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const gapTooWide: Rule = {
  code: 'seal/gap-too-wide',
  severity: 'warning',
  worst: 'error',
  *check(stages) {
    const { tub, joints, watertight } = stages;
    const runs = joints().seams.map(
      (joint) => new Map(joint.runs.map((run) => [keyOf(run.run.sides.map((s) => s.face)), run])),
    );
    for (const leak of widestOfSeams(watertight().leaks)) {
      if (leak.seam === undefined) continue;
      const run = runs[leak.seam].get(keyOf(leak.faces));
      if (!run) continue;
      const { nominal, stack, drawn } = run.gap;
      const [a, b] = leak.faces.map((face) => named(tub.panels[face].name));
      const finding = leakFinding(tub, leak);
      const about = [...finding.about, ...leadName(stages, run)];
      yield {
        ...finding,
        // Open as drawn: it cannot be made tight. Open only once the shop's errors add up: likely to disappoint.
        severity: nominal > leak.closes ? severityOf(leak) : 'warning',
        message: `Seam ${named(tub.seams[leak.seam].name)} stands open about ${inMm(leak.gap, leak.closes)} between ${a} and ${b}; ${remedyOf(joints().seams[leak.seam], run)}`,
        about,
        related: [...(finding.related ?? []), ...causeOf(stages, run, leak)],
        values: {
          ...finding.values,
          nominal_mm: nominal,
          rss_mm: stack.rss,
          worst_mm: stack.worst,
          drawn_mm: drawn,
          closes_mm: leak.closes,
          ...(run.gap.pullForce === undefined ? {} : { pull_mm: run.gap.pull, closing_force_N: run.gap.pullForce }),
          clamp_at_most_N: joints().seams[leak.seam].clampAtMost,
          ...holdValues(stages, run, leak),
        },
        measure: { has: leak.gap, needs: leak.closes, better: 'less' },
      };
    }
  },
};

/** What closes it, and where only bends and marks open it what pulls it shut. */
const remedyOf = ({ method, allowed, clampAtMost }: SeamJoint, { gap }: RunJoint): string => {
  const closes = `${method.name} closes ${inMm(allowed)}`;
  if (gap.nominal > allowed) return closes;
  if (gap.pullForce === undefined) return `${closes}, and no clamp shuts it, as it opens in the plane of the panels`;
  return `${closes}, and pulling it that far takes ${inN(gap.pullForce, clampAtMost)}, a clamp gives at most ${inN(clampAtMost, gap.pullForce)}`;
};

/** One finding per seam: where it stands open widest. */
const widestOfSeams = (leaks: readonly Leak[]): readonly Leak[] => {
  const widest = new Map<number | undefined, Leak>();
  for (const leak of leaks) {
    if (leak.kind !== 'gap') continue;
    const known = widest.get(leak.seam);
    if (!known || leak.gap > known.gap) widest.set(leak.seam, leak);
  }
  return [...widest.values()];
};

const keyOf = (faces: readonly number[]): string => faces.join(' ');

const leadName = ({ shape, joints }: Stages, { gap }: RunJoint): readonly string[] => {
  const lead = leadingShare(gap.stack, joints().tolerances);
  return lead ? [shape().bends[lead.bend].name] : [];
};

const targetOf = ({ gap }: RunJoint, leak: Leak): number => leak.closes + gap.drawn - gap.nominal;

/** The bend that adds most, and how true it must be held. */
const causeOf = ({ shape, joints }: Stages, run: RunJoint, leak: Leak): readonly Related[] => {
  const { tolerances } = joints();
  const lead = leadingShare(run.gap.stack, tolerances);
  if (!lead) return [];
  const bend = shape().bends[lead.bend];
  const within = withinOf(tolerances, lead.bend);
  const hold = holdWithin(run.gap.stack, tolerances, targetOf(run, leak));
  const remedy =
    hold === undefined
      ? 'even held exactly, the other bends and marks open it too far'
      : `held within ${inDeg(hold)} the seam closes`;
  const share = inMm(lead.perAngle * within);
  return [
    {
      at: bend.at,
      message: `Bend ${named(bend.name)} adds most: ${share} at ${inDeg(within)} off; ${remedy}`,
    },
  ];
};

const holdValues = ({ joints }: Stages, run: RunJoint, leak: Leak): Readonly<Record<string, number>> => {
  const hold = holdWithin(run.gap.stack, joints().tolerances, targetOf(run, leak));
  return hold === undefined ? {} : { hold_within_deg: toDeg(hold) };
};
