import { readingOfBend } from '../../built/learned.js';
import { READING_FAR_OFF } from '../../model/tolerance.js';
import { inDeg, named, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const farOff: Rule = {
  code: 'made/far-off',
  severity: 'warning',
  *check({ tub, built }) {
    for (const strip of built.strips) {
      const { profile, read } = strip;
      for (const i of read) {
        const { bend, turn } = profile.bends[i];
        const { name } = tub.bends[bend];
        const reading = readingOfBend(tub, strip, bend);
        if (!reading) continue;
        const planned = Math.abs(turn);
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
  },
};
