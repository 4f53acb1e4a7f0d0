import { beyondAnyK, lessonsOf } from '../../built/learned.js';
import { readBendsOf } from '../../built/read-bends.js';
import { READING_FAR_OFF } from '../../model/tolerance.js';
import { inDeg, inMm, named, toDeg } from '../../model/wording.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const farOff: Rule = {
  code: 'made/far-off',
  severity: 'warning',
  *check(stages) {
    yield* bendsFarOff(stages);
    yield* legsFarOff(stages);
  },
};

function* bendsFarOff({ tub, built }: Stages): Iterable<RuleFinding> {
  for (const { reading, name, planned } of readBendsOf(tub, built)) {
    const off = Math.abs(reading.turn - planned);
    if (off <= READING_FAR_OFF) continue;
    const isOther = Math.abs(Math.PI - reading.turn - planned) <= READING_FAR_OFF;
    const [has, is] = reading.isOpening ? ['opens', 'reads'] : ['reads', 'opens'];
    const stated = reading.isOpening ? Math.PI - reading.turn : reading.turn;
    yield {
      message: `Bend ${named(name)} ${has} ${inDeg(stated)}, which is ${inDeg(off)} from the ${inDeg(planned)} that it was planned to turn; ${isOther ? `as \`${is}\` it would be ${inDeg(Math.abs(Math.PI - reading.turn - planned))} off` : 'read it again before anything is cut to it'}`,
      at: reading.at,
      about: [name],
      values: {
        reading_deg: toDeg(stated),
        planned_deg: toDeg(planned),
        off_deg: toDeg(off),
        far_deg: toDeg(READING_FAR_OFF),
      },
      measure: { has: toDeg(off), needs: toDeg(READING_FAR_OFF), better: 'less' },
    };
  }
}

/** A leg that no K explains. */
function* legsFarOff({ tub, built }: Stages): Iterable<RuleFinding> {
  for (const lesson of lessonsOf(tub, built.strips, () => undefined)) {
    if (lesson.kind !== 'k' || beyondAnyK(lesson) === 0) continue;
    const reading = built.strips.flatMap(({ made }) => made.lengths).find(({ at }) => at === lesson.at);
    if (!reading) continue;
    const { name } = tub.panels[reading.panel];
    const off = beyondAnyK(lesson);
    const most = reading.length - off;
    yield {
      message: `${named(name)} measures ${inMm(reading.length, most)} over ${reading.over}; between bends as they were read and by its flat it is ${off > 0 ? 'at most' : 'at least'} ${inMm(most, reading.length)}, whatever K the metal has, so tape it again; nothing is learned from it`,
      at: reading.at,
      about: [name],
      values: { reading_mm: reading.length, possible_mm: most, off_mm: Math.abs(off) },
      measure: { has: reading.length, needs: most, better: off > 0 ? 'less' : 'more' },
    };
  }
}
