import { lessonsOf, legsOff, scatterOf } from '../../built/learned.js';
import { readBendsOf } from '../../built/read-bends.js';
import { uniformDeviation } from '../../built/worth.js';
import { TAPE_WITHIN } from '../../model/shop/default-shop.js';
import { FEW_BY_CHANCE } from '../../model/tolerance.js';
import { fixed, inDeg, inMm, toDeg } from '../../model/wording.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

/** Fewer readings say nothing of a shop. */
const LEAST_READINGS = 3;

export const scatter: Rule = {
  code: 'made/scatter',
  severity: 'warning',
  *check(stages) {
    yield* scatterOfBends(stages);
    yield* scatterOfMarks(stages);
  },
};

function* scatterOfBends({ tub, built }: Stages): Iterable<RuleFinding> {
  const within = tub.shop?.bendsWithin;
  const read = readBendsOf(tub, built).filter(({ reading }) => !reading.isBySlopes);
  if (within === undefined || within <= 0 || read.length < LEAST_READINGS) return;
  const off = read.map(({ reading, planned }) => reading.turn - planned);
  const found = scatterOf(
    off,
    off.map(() => uniformDeviation(within)),
  );
  if (!found || found.chance >= FEW_BY_CHANCE) return;
  const needs = found.size * Math.sqrt(3);
  yield {
    message: `${found.count} readings lie ${inDeg(found.size)} off what was planned (root mean square); a shop that holds bends within ${inDeg(within)} does so in ${percent(found.chance)} of cases, so state about \`bends within ${inDeg(needs)}\``,
    at: read[0].made.at,
    about: [tub.shop?.name ?? ''],
    values: {
      readings_count: found.count,
      off_deg: toDeg(found.size),
      within_deg: toDeg(within),
      needs_deg: toDeg(needs),
      chance_percent: found.chance * 100,
    },
  };
}

/** Of a leg each end at a bend is off by what a mark is, and the whole by what the tape is. K, which is fitted, is no part of it. */
function* scatterOfMarks({ tub, built }: Stages): Iterable<RuleFinding> {
  const within = tub.shop?.marksWithin;
  const taped = built.strips.filter(({ made }) => made.lengths.length > 0);
  if (within === undefined || taped.length === 0) return;
  const tape = Math.max(...taped.map(({ made }) => made.tapeWithin ?? TAPE_WITHIN));
  for (const [sheet] of tub.sheets.entries()) {
    const legs = legsOff(lessonsOf(tub, taped, () => undefined).filter((lesson) => lesson.sheet === sheet));
    if (legs.length < LEAST_READINGS) continue;
    const deviations = legs.map(({ marks }) => uniformDeviation(Math.sqrt(marks * within ** 2 + tape ** 2)));
    const found = scatterOf(
      legs.map(({ off }) => off),
      deviations,
      1,
    );
    if (!found || !(found.chance < FEW_BY_CHANCE)) continue;
    const marks = legs.reduce((sum, each) => sum + each.marks, 0) / legs.length;
    const needs = Math.sqrt(Math.max(0, 3 * found.size ** 2 - tape ** 2) / marks);
    yield {
      message: `${found.count} taped legs lie ${inMm(found.size)} off the K that fits them best (root mean square); marks within ${inMm(within)} and a tape within ${inMm(tape)} do so in ${percent(found.chance)} of cases, so state about \`marks within ${inMm(needs)}\``,
      at: taped[0].made.at,
      about: [tub.shop?.name ?? ''],
      values: {
        legs_count: found.count,
        off_mm: found.size,
        within_mm: within,
        tape_mm: tape,
        needs_mm: needs,
        chance_percent: found.chance * 100,
      },
    };
  }
}

const percent = (share: number): string => (share < 1 / 1000 ? 'less than 0.1 %' : `${fixed(share * 100, 1)} %`);
