import { READING_FAR_OFF } from '../../model/tolerance.js';
import { inDeg, named, toDeg } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const farOff: Rule = {
  code: 'made/far-off',
  severity: 'warning',
  *check({ tub, built }) {
    for (const { made, profile, read } of built.strips) {
      for (const i of read) {
        const { bend, turn } = profile.bends[i];
        const { name, panels } = tub.bends[bend];
        const reading = made.bends.find((each) => each.panels[0] === panels[0] && each.panels[1] === panels[1]);
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
