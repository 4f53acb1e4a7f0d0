/** Water in the air: jets of spouts, and inflows that fall. */
import { addScaled, lerp, type Vec3 } from '../../geometry/vec.js';
import { splashRows, SPLASH_COLUMNS } from '../../report/water/splashes.js';
import { toFacts } from '../../report/table.js';
import type { Stages } from '../../stages/stages.js';
import { throwOf } from '../../water/outlet/jet.js';
import { splashesOf } from '../../water/splash.js';
import type { Water } from '../../water/water.js';
import { drawn3, drawnLength, drawnNumber } from '../drawn.js';
import type { SceneEntry } from '../scene-items.js';

const litresPerMinute = (mm3PerS: number): number => (mm3PerS * 60) / 1e6;

/** mm. How far down a jet is drawn where no tank's place is stated, and in how many pieces. */
const JET_DRAWN = 200;
const JET_PIECES = 12;

/** Jets of spouts, as they run, from the middle of what is wet. */
export const jetEntries = ({ tub }: Stages, water: Water): SceneEntry[] =>
  water.outlets().flatMap(({ outlet, jet, lip, rateMm3S }): SceneEntry[] => {
    if (!jet) return [];
    const { name, at } = tub.outlets[outlet];
    const tank = tub.tanks.find(({ under, box }) => box && under.includes(outlet));
    const drop = tank?.box ? lip - tank.box.max[2] : JET_DRAWN;
    const rate = litresPerMinute(rateMm3S) / jet.parts.length;
    return jet.parts.map(([from, to], part): SceneEntry => {
      const middle = lerp(from, to, 0.5);
      const points = Array.from({ length: JET_PIECES + 1 }, (_, i): Vec3 => {
        const fall = Math.max(0, drop) * (i / JET_PIECES) ** 2;
        const [x, y] = addScaled(middle, jet.way, throwOf(jet, fall));
        return [x, y, middle[2] - fall];
      });
      return {
        key: `jet:${name} ${part + 1}`,
        at,
        item: { kind: 'water-flow', name, points: points.map(drawn3), rate_L_min: drawnNumber(rate), told: undefined },
      };
    });
  });

/** Pieces of the ring that is drawn where drops come down. */
const RING = 48;

/** Where each inflow that falls is let go, where it lands, and how far its drops come on the level. */
export const splashEntries = ({ tub }: Stages, water: Water): SceneEntry[] => {
  const splashes = splashesOf(tub, water);
  return splashRows(tub, water).map((row, i): SceneEntry => {
    const { inflow, at: lands, fall, reaches } = splashes[i];
    const [x, y, z] = lands;
    const ring = Array.from({ length: RING }, (_, k): Vec3 => {
      const turn = (2 * Math.PI * k) / RING;
      return [x + reaches * Math.cos(turn), y + reaches * Math.sin(turn), z];
    });
    return {
      key: `splash:${row.inflow}`,
      at: tub.inflows[inflow].at,
      item: {
        kind: 'water-splash',
        name: row.inflow,
        from: drawn3([x, y, z + fall]),
        lands: drawn3(lands),
        ring: ring.map(drawn3),
        reaches_mm: drawnLength(reaches),
        told: { what: `Splash of ${row.inflow}`, facts: toFacts(SPLASH_COLUMNS, row) },
      },
    };
  });
};
