import type { Tub } from '../../model/tub.js';
import type { Stages } from '../../stages/stages.js';
import { landingsAt } from '../../water/outlet/spout.js';
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
    yield* thrown({ tub, water });
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

/** Over an edge that is an outlet water is thrown out: it drips straight down, and comes down farther off the more of it runs. */
function* thrown({ tub, water }: Pick<Stages, 'tub' | 'water'>): Iterable<RuleFinding> {
  for (const { outlet, jet } of water().outlets()) {
    if (!jet) continue;
    const { name, panel } = tub.outlets[outlet];
    for (const zone of tub.dryZones) {
      const places = landingsAt(jet, zone.box.max[2]).map(([start, end]): FallPlace => ({
        face: panel,
        start,
        end,
        share: 1,
      }));
      yield* fallsOnDry({ ...tub, dryZones: [zone] }, places, `Outlet ${named(name)} throws water`);
    }
  }
}

/** Notches and overflows that nothing is turned down from: water falls from the lowest part of their rim. */
function* outOfWalls(tub: Tub, water: Water): Iterable<RuleFinding> {
  for (const { name, weir, overflow, lip, opening } of tub.outlets) {
    if (opening === undefined || (!weir && !(overflow && lip === 0))) continue;
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
