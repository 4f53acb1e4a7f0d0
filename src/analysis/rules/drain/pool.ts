import type { Vec3 } from '../../geometry/vec.js';
import { isWet } from '../../model/around/roles.js';
import type { Tub } from '../../model/tub.js';
import type { Related } from '../../model/finding.js';
import type { Pool } from '../../water/standing/pools.js';
import { dividerAt, type Chamber } from '../../water/chambers.js';
import type { FaceIndex } from '../../shape/shape.js';
import { spillCause } from '../../water/flow/route/spill-cause.js';
import { partedOffBy } from '../../water/parted-off.js';
import { POOL_DEPTH, type Water } from '../../water/water.js';
import { atPoint, inMm, named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const pool: Rule = {
  code: 'drain/pool',
  severity: 'warning',
  *check({ tub, water }) {
    const state = water();
    // A mouth in what stands there already, or a hole in a support, lets nothing out.
    const drains =
      state.drained().open.some((isOpen, i) => isOpen && isWet(tub, tub.openings[i]?.panel)) ||
      tub.outlets.some(({ spout }) => spout);
    const atWorst = new Map(state.tilted().map((tilted) => [tilted.face, tilted]));
    for (const found of state.pools()) {
      // Without any outlet the whole tub is one pool: that is told once, as such.
      if (!drains && state.basins()[0]?.level === found.level) continue;
      if (!Number.isFinite(found.level)) continue;
      const { name, at } = tub.panels[found.face];
      const tilted = atWorst.get(found.face);
      const isFilm = found.depth <= state.film;
      // A pool at the worst tilt is told as such.
      if (isFilm && tilted) continue;
      const chamber = chamberOf(state, found);
      const over = chamber ? chamber.spill.over : dividerBefore(tub, state, found);
      const held = over === undefined ? undefined : tub.panels[over];
      const size = `${plain(found.volume / 1000, 1)} mL over ${plain(found.area / 100, 1)} cm2`;
      yield {
        ...(isFilm || held ? { severity: 'info' } : {}),
        message: held
          ? `${named(held.name)} holds ${inMm(found.depth)} of water back on ${named(name)}, ${size}; it stays there with the outlets open`
          : isFilm
            ? `A film of up to ${inMm(found.depth, state.film)} stays on ${named(name)}, ${size}; on level sheet it rests up to ${inMm(state.film, found.depth)} deep, and goes only by wiping`
            : `Water stands ${inMm(found.depth, state.film)} deep on ${named(name)}, ${size}, more than the film of ${inMm(state.film, found.depth)} that rests on level sheet; it needs to run off`,
        at,
        about: held ? [name, held.name] : [name],
        related: [
          { at, message: `Deepest at ${atPoint(found.deepest)}, level ${inMm(found.level)}` },
          ...(chamber?.spill.into === undefined
            ? causeOf(tub, state, found)
            : [{ at, message: `It runs over into the next chamber at ${atPoint(chamber.spill.at)}` }]),
        ],
        values: {
          depth_mm: found.depth,
          film_mm: state.film,
          is_film: isFilm,
          area_mm2: found.area,
          volume_mL: found.volume / 1000,
          level_mm: found.level,
          ...(tilted ? { depth_at_worst_tilt_mm: Math.max(tilted.depth, found.depth) } : {}),
        },
        measure: { has: found.depth, needs: isFilm ? POOL_DEPTH : state.film, better: 'less' },
      };
    }
  },
};

/** The chamber that a pool fills to where it runs over into the next. */
const chamberOf = (water: Water, { level, deepest }: Pool): Chamber | undefined =>
  water
    .chambers()
    .find(
      (chamber) =>
        chamber.level === level &&
        chamber.lowest[2] === deepest[2] &&
        chamber.spill.into !== undefined &&
        holds(water, chamber, deepest),
    );

/** The divider over which a pool runs on that stands in several chambers, those between them being drowned; or that is as high as the rim. */
const dividerBefore = (tub: Tub, water: Water, found: Pool): FaceIndex | undefined => {
  const { surface, drained } = water;
  const cause = spillCause(surface(), drained(), found);
  return cause.kind === 'crest' ? dividerAt(surface(), cause.point) : partedOffBy(tub, water, found);
};

const holds = (water: Water, { points }: Chamber, place: Vec3): boolean =>
  points.has(water.surface().points.indexOf(place));

const causeOf = (tub: Tub, { surface, drained }: Water, found: Pool): readonly Related[] => {
  const cause = spillCause(surface(), drained(), found);
  if (cause.kind === 'rim') {
    const opening = tub.openings[cause.opening];
    const raised = tub.outlets.find((outlet) => outlet.opening === cause.opening)?.raised ?? 0;
    const why =
      raised > 0
        ? `the raised edge of ${named(opening.name)}`
        : `the lowest point of the rim of ${named(opening.name)}`;
    return [{ at: opening.at, message: `It is held back by ${why}` }];
  }
  if (cause.kind === 'edge') {
    const { rim } = cause.stretch;
    const isWet = rim !== undefined && tub.rims[rim].hem?.turned === 'wet';
    const why = isWet ? 'the hem turned to the wet side on' : 'the free edge of';
    return [
      {
        at: tub.panels[cause.stretch.face].at,
        message: `It is held back by ${why} ${named(tub.panels[cause.stretch.face].name)}`,
      },
    ];
  }
  return found.spill
    ? [{ at: tub.panels[found.face].at, message: `It runs on over the crest at ${atPoint(found.spill)}` }]
    : [];
};
