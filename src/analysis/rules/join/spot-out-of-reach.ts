import type { SpotReach } from '../../join/spots/spot-plan.js';
import { spotReachOf, spotRowsOf } from '../../join/spots/spot-plan.js';
import type { SpotWelder } from '../../model/tub.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const spotOutOfReach: Rule = {
  code: 'join/spot-out-of-reach',
  severity: 'error',
  *check({ tub, shape, joints }) {
    const welders = tub.shop?.spotWelders ?? [];
    const rows = welders.length > 0 ? spotRowsOf(tub, joints()) : [];
    const reaches = welders.map((welder) => spotReachOf(shape(), joints(), rows, welder));
    for (let i = 0; i < rows.length; i++) {
      yield undefined;
      if (reaches.some((reach) => reach[i].reaches)) continue;
      const [welder, reach] = nearestWelder(
        welders,
        reaches.map((each) => each[i]),
      );
      const { name, at } = tub.seams[rows[i].seam];
      const panels = rows[i].joint.run.sides.map((side) => tub.panels[side.face].name);
      const { throat, opening } = reach.worst;
      const lack = lackOf(welder, throat, opening);
      const spots = `Spots of seam ${named(name)} between ${named(panels[0])} and ${named(panels[1])}`;
      yield {
        message: lack
          ? `${spots} need ${lack.what} of ${inMm(lack.needs, lack.has)}; ${named(welder.name)} has ${inMm(lack.has, lack.needs)}`
          : `${spots} cannot be reached by the arms of ${named(welder.name)}: sheet stands in their way from every side; both arms need a free way`,
        at,
        about: [name, ...panels, welder.name],
        related: [
          {
            at: welder.at,
            message: `Of all ways in past the sheet, and of both orders of spotting, this lacks least: throat ${inMm(throat)}, opening ${inMm(opening)}`,
          },
        ],
        values: {
          throat_needed_mm: throat,
          opening_needed_mm: opening,
          throat_mm: welder.throat,
          opening_mm: welder.opening,
        },
        ...(lack ? { measure: { has: lack.has, needs: lack.needs, better: 'more' as const } } : {}),
      };
    }
  },
};

const lackOf = (
  welder: SpotWelder,
  throat: number,
  opening: number,
): { readonly what: string; readonly has: number; readonly needs: number } | undefined => {
  if (throat > welder.throat) return { what: 'a throat', has: welder.throat, needs: throat };
  return opening > welder.opening ? { what: 'an opening', has: welder.opening, needs: opening } : undefined;
};

const nearestWelder = (
  welders: readonly SpotWelder[],
  reaches: readonly SpotReach[],
): readonly [SpotWelder, SpotReach] => {
  const lacks = reaches.map(
    ({ worst }, i) => Math.max(0, worst.throat - welders[i].throat) + Math.max(0, worst.opening - welders[i].opening),
  );
  const best = lacks.indexOf(Math.min(...lacks));
  return [welders[best], reaches[best]];
};
