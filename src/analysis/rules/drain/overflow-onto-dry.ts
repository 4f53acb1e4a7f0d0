import type { Tub } from '../../model/tub.js';
import type { RuleFinding } from '../rule.js';
import { fallsOn, lowestRim, middleOfLongest, type FallPlace } from '../../water/overflow.js';
import type { Water } from '../../water/water.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const overflowOntoDry: Rule = {
  code: 'drain/overflow-onto-dry',
  severity: 'error',
  *check({ tub, water }) {
    if (tub.dryZones.length === 0) return;
    yield* outOfWalls(tub, water());
    const level = water().floodLevel();
    yield* fallsOnDry(
      tub,
      water().falls(),
      `With the outlets plugged the tub runs over at ${level === undefined ? '' : inMm(level)}`,
    );
    const losing = water()
      .flows()
      .flatMap(({ ends }) => ends.flatMap((end) => (end.kind === 'rim' ? [end] : [])));
    yield* fallsOnDry(
      tub,
      losing.map(({ stretch, start, end, share }) => ({ face: stretch.face, start, end, share })),
      'In use water leaves',
    );
  },
};

/** Notches and overflows that nothing is turned down from: water falls from the lowest part of their rim. */
function* outOfWalls(tub: Tub, water: Water): Iterable<RuleFinding> {
  for (const { name, weir, overflow, lip, opening } of tub.outlets) {
    if (!weir && !(overflow && lip === 0)) continue;
    yield* fallsOnDry(tub, lowestRim(water.surface(), opening, 1), `Water runs out of ${named(name)}`);
  }
}

function* fallsOnDry(tub: Tub, places: readonly FallPlace[], when: string): Iterable<RuleFinding> {
  for (const zone of tub.dryZones) {
    const over = places.filter((place) => fallsOn(place, zone.box));
    const point = middleOfLongest(over);
    if (!point) continue;
    const { name, at } = tub.panels[over[0].face];
    yield {
      message: `${when} over the edge of ${named(name)} onto ${named(zone.name)}; that zone needs to stay dry`,
      at,
      about: [name, zone.name],
      related: [{ at: zone.at, message: `It falls at ${atPoint(point)}` }],
      values: { x_mm: point[0], y_mm: point[1], z_mm: point[2] },
    };
  }
}
