import { beyondAnyK, tapedLegsOf } from '../../built/learned.js';
import { readBendsOf } from '../../built/read-bends.js';
import { GAUGE_WITHIN } from '../../model/shop/default-shop.js';
import { READING_FAR_OFF } from '../../model/tolerance.js';
import { asRead, inDeg, inMm, named, toDeg } from '../../model/wording.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule, RuleFinding } from '../rule.js';

export const farOff: Rule = {
  code: 'made/far-off',
  severity: 'warning',
  *check(stages) {
    yield* bendsFarOff(stages);
    yield* legsFarOff(stages);
    yield* bentToLess(stages);
    yield* slopesApart(stages);
  },
};

function* bendsFarOff({ tub, built }: Stages): Iterable<RuleFinding> {
  for (const { reading, name, planned } of readBendsOf(tub, built)) {
    const off = Math.abs(reading.turn - planned);
    if (off <= READING_FAR_OFF) continue;
    const isOther = Math.abs(Math.PI - reading.turn - planned) <= READING_FAR_OFF;
    const [has, is] = reading.isOpening
      ? ['opens', 'reads']
      : [reading.isBySlopes ? 'by the slopes beside it turns' : 'reads', 'opens'];
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
  for (const leg of built.strips.flatMap(tapedLegsOf)) {
    const off = beyondAnyK(leg);
    if (off === 0) continue;
    const { reading } = leg;
    const { name } = tub.panels[reading.panel];
    const most = reading.length - off;
    yield {
      message: `${named(name)} measures ${asRead(reading.length, most)} over ${reading.over}; by its flat and the bends beside it it is ${off > 0 ? 'at most' : 'at least'} ${inMm(most, reading.length)}, whatever K the metal has, so tape it again; nothing is learned from it`,
      at: reading.at,
      about: [name],
      values: { reading_mm: reading.length, possible_mm: most, off_mm: Math.abs(off) },
      measure: { has: reading.length, needs: most, better: off > 0 ? 'less' : 'more' },
    };
  }
}

/** What the brake was set to is less than what came out. */
function* bentToLess({ tub, built }: Stages): Iterable<RuleFinding> {
  for (const { reading, name } of readBendsOf(tub, built)) {
    const { bentTo, turn, at } = reading;
    if (bentTo === undefined || bentTo >= turn) continue;
    yield {
      message: `Bend ${named(name)} turns ${inDeg(turn, bentTo)} and is said to have been bent to ${inDeg(bentTo, turn)}; no sheet closes by itself, so it needs to have been bent farther than it came out, and nothing is learned from it`,
      at,
      about: [name],
      values: { bent_to_deg: toDeg(bentTo), turn_deg: toDeg(turn) },
    };
  }
}

/** Legs whose slopes to level do not go with the bends between them. */
function* slopesApart({ tub, built }: Stages): Iterable<RuleFinding> {
  for (const { made, strip, profile, moved } of built.strips) {
    if (made.slopes.length < 2) continue;
    const within = made.gaugeWithin ?? GAUGE_WITHIN;
    for (const { at, panel, slope } of made.slopes) {
      const leg = tub.strips[strip].panels.indexOf(panel);
      const [a, b] = [profile.points[leg], profile.points[leg + 1]];
      const stands = Math.abs(Math.atan2(b[1] - a[1], b[0] - a[0]) + moved.turned[leg]);
      const is = Math.min(stands, Math.PI - stands);
      if (Math.abs(is - slope) <= within) continue;
      const { name } = tub.panels[panel];
      yield {
        message: `${named(name)} stands ${inDeg(slope, is)}; beside the other slopes that were found, and with the bends between as they were read or planned, it is ${inDeg(is, slope)}: read the bends between as well, or one of the slopes again`,
        at,
        about: [name],
        values: { stands_deg: toDeg(slope), is_deg: toDeg(is), within_deg: toDeg(within) },
      };
    }
  }
}
