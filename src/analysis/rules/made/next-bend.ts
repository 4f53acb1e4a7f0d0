import type { MadeStrip } from '../../built/as-made.js';
import { largestGap } from '../../built/closing.js';
import { firstCorrectionOf } from '../../built/next.js';
import { isRead } from '../../built/settled-flanges.js';
import { READ_AS_PLANNED } from '../../model/tolerance.js';
import type { Tub } from '../../model/tub.js';
import { inDeg, inMm, named, toDeg } from '../../model/wording.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const nextBend: Rule = {
  code: 'made/next-bend',
  severity: 'info',
  *check(stages) {
    for (const strip of stages.built.strips) {
      yield;
      yield* openBends(stages, strip);
      yield* correction(stages, strip);
    }
    yield* settledFlanges(stages);
  },
};

/** What is left is told as what stands off a cut part or, where all is still to be cut, off where the strip was drawn. */
const leftText = ({ task }: MadeStrip, left: number): string =>
  task.contacts.some(({ panel }) => panel !== undefined)
    ? `the cut parts then stand off by ${inMm(left)} at most`
    : `the strip then lies within ${inMm(left)} of where it was drawn`;

function* openBends({ tub }: Stages, strip: MadeStrip): Iterable<RuleFinding> {
  const { open, profile, folding, task, made } = strip;
  const left = largestGap(task, folding.turns);
  for (const i of open) {
    const { bend, turn } = profile.bends[i];
    const [planned, to] = [Math.abs(turn), Math.abs(folding.turns[i])];
    if (Math.abs(to - planned) <= READ_AS_PLANNED) continue;
    const { name } = tub.bends[bend];
    yield {
      message: `Bend ${named(name)} is still open; bend it to ${inDeg(to)} (planned ${inDeg(planned)}): ${leftText(strip, left)}`,
      at: made.at,
      about: [name],
      values: { planned_deg: toDeg(planned), bend_to_deg: toDeg(to), left_mm: left },
    };
  }
}

function* correction({ tub }: Stages, strip: MadeStrip): Iterable<RuleFinding> {
  const first = firstCorrectionOf(strip);
  if (!first || Math.abs(first.to - first.from) <= READ_AS_PLANNED) return;
  const { name } = tub.bends[first.bend];
  const by = Math.abs(first.to - first.from);
  yield {
    message: `${first.to < first.from ? 'Open' : 'Close'} bend ${named(name)} by ${inDeg(by)} first, from ${inDeg(first.from)} to ${inDeg(first.to)}: ${leftText(strip, first.after)}, ${inMm(first.before, first.after)} without`,
    at: strip.made.at,
    about: [name],
    values: {
      by_deg: toDeg(by),
      from_deg: toDeg(first.from),
      to_deg: toDeg(first.to),
      left_mm: first.after,
      without_mm: first.before,
    },
  };
}

/** Flanges that lie level or stand plumb by another angle now. */
function* settledFlanges({ tub, shape, planned }: Stages): Iterable<RuleFinding> {
  const drawn = planned()?.shape().bends;
  if (!drawn) return;
  const plannedAngles = new Map(drawn.map(({ name, angle }) => [name, angle]));
  for (const { name, faces, angle } of shape().bends) {
    const set = faces.map((face) => setOf(tub, face, faces)).find((each) => each !== undefined);
    const before = plannedAngles.get(name);
    if (!set || before === undefined || Math.abs(angle - before) <= READ_AS_PLANNED) continue;
    yield {
      message: `Bend ${named(name)} is still open; bend it to ${inDeg(angle)} (planned ${inDeg(before)}): ${named(tub.panels[set.flange].name)} then ${set.lies === 'level' ? 'lies level' : 'stands plumb'}`,
      at: tub.panels[set.flange].at,
      about: [name],
      values: { planned_deg: toDeg(before), bend_to_deg: toDeg(angle) },
    };
  }
}

const setOf = (
  tub: Tub,
  flange: number,
  faces: readonly number[],
): { readonly flange: number; readonly lies: 'level' | 'plumb' } | undefined => {
  const { kind } = tub.panels[flange];
  if (kind.kind !== 'flange' || !kind.set || !faces.includes(kind.parent.panel)) return undefined;
  return isRead(tub, flange, kind.parent.panel) ? undefined : { flange, lies: kind.set };
};
