import type { Vec3 } from '../../geometry/vec.js';
import { inMm, named, plain } from '../../model/wording.js';
import type { Box, Outlet, Tank, Tub } from '../../model/tub.js';
import { HAND_ROUNDED } from '../../model/tolerance.js';
import type { InflowFlow } from '../../water/flow/inflows.js';
import type { OutletState } from '../../water/outlet/outlets.js';
import type { Jet } from '../../water/outlet/jet.js';
import { landsAt, type SpoutJet } from '../../water/outlet/spout.js';
import type { Rule, RuleFinding } from '../rule.js';

export const missesTank: Rule = {
  code: 'drain/misses-tank',
  severity: 'error',
  *check({ tub, water }) {
    for (const tank of tub.tanks) {
      const { box } = tank;
      if (!box) continue;
      for (const index of tank.under) {
        const outlet = tub.outlets[index];
        if (outlet.spout) {
          const state = water()
            .outlets()
            .find((each) => each.outlet === index);
          if (state) yield* thrownPast(water().flows(), outlet, state, { ...tank, box });
          continue;
        }
        yield* below(tub, outlet, { ...tank, box });
        const { name, at, pipe } = outlet;
        const beyond = reachOf(tub, outlet).reduce(
          (most, place) => Math.max(most, beyondBox(box, place.at) + place.around),
          -Infinity,
        );
        if (beyond <= HAND_ROUNDED) continue;
        yield {
          message: `${pipe ? 'The pipe of outlet' : 'Outlet'} ${named(name)} ${pipe ? 'ends' : 'stands'} ${inMm(beyond, 0)} over the side of tank ${named(tank.name)}; it needs to lie within`,
          ...common(name, at, tank, beyond),
        };
      }
    }
  },
};

/** Places from which an outlet falls, and how far around them: of its pipe the end, of a notch both ends of the sill. */
const reachOf = (
  tub: Tub,
  { center, diameter, opening, pipe }: Outlet,
): readonly { readonly at: Vec3; readonly around: number }[] => {
  if (pipe) return [{ at: pipe.to, around: pipe.bore / 2 }];
  const shape = opening === undefined ? undefined : tub.openings[opening].shape;
  if (shape?.kind === 'notch') return [shape.from, shape.to].map((at) => ({ at, around: 0 }));
  return [{ at: center, around: diameter / 2 }];
};

/** The hole has to stand over the brim: a tank higher than that would stand in the tub. A pipe may dip into it, not through its floor. */
function* below(tub: Tub, outlet: Outlet, tank: Tank & { readonly box: Box }): Iterable<RuleFinding> {
  const { name, at, pipe } = outlet;
  const end = Math.min(...reachOf(tub, outlet).map((place) => place.at[2]));
  const limit = pipe ? tank.box.min[2] : tank.box.max[2];
  const under = limit - end;
  if (under <= HAND_ROUNDED) return;
  yield {
    message: pipe
      ? `The pipe of outlet ${named(name)} ends ${inMm(under)} below the floor of tank ${named(tank.name)}; it needs to end above it`
      : `Outlet ${named(name)} lies ${inMm(under)} below the brim of tank ${named(tank.name)}; it needs to lie above it`,
    ...common(name, at, tank, under),
  };
}

/** How far a place lies outside of a box in plan, mm; negative: so far inside. */
const beyondBox = ({ min, max }: Box, place: Vec3): number =>
  Math.max(...[0, 1].map((k) => Math.max(min[k] - place[k], place[k] - max[k])));

const common = (name: string, at: number, tank: Tank, beyond: number): Omit<RuleFinding, 'message'> => ({
  at,
  about: [name, tank.name],
  related: [{ at: tank.at, message: 'The tank as stated' }],
  values: { beyond_mm: beyond },
  measure: { has: beyond, needs: 0, better: 'less' },
});

interface Run {
  readonly places: SpoutJet['parts'];
  readonly rate: number;
}

/** A spout drips straight down as the flow starts and stops, and throws its water out while it runs; all of it has to come down in the tank. */
function* thrownPast(
  flows: readonly InflowFlow[],
  { name, at }: Outlet,
  { jet, rateMm3S, lowest }: OutletState,
  tank: Tank & { readonly box: Box },
): Iterable<RuleFinding> {
  const { box } = tank;
  const brim = box.max[2];
  if (!jet) return;
  const drips = Math.max(...jet.parts.flat().map((place) => beyondBox(box, place)));
  if (drips > HAND_ROUNDED)
    yield {
      message: `Outlet ${named(name)} drips ${inMm(drips, 0)} beside tank ${named(tank.name)} as the flow starts and stops; its edge needs to lie within`,
      ...common(name, at, tank, drips),
    };
  const all = flows.reduce((sum, flow) => sum + flow.rateMm3S, 0);
  const { leap, way } = jet;
  const leaps = (thrown: Jet, rate: number): readonly Run[] =>
    leap ? [{ places: landsAt(thrown, { parts: leap.parts, way }, brim), rate }] : [];
  const runs: readonly Run[] = [
    { places: landsAt(jet, jet, brim), rate: rateMm3S },
    ...(leap ? leaps(leap.usual, rateMm3S) : []),
    { places: landsAt(jet.most, jet, brim), rate: all },
    ...(leap ? leaps(leap.most, all) : []),
  ];
  for (const { places, rate } of runs) {
    const past = Math.max(...places.flat().map((place) => beyondBox(box, place)));
    if (past <= HAND_ROUNDED || past <= drips) continue;
    const drop = Math.max(0, lowest[2] - brim);
    yield {
      message: `Outlet ${named(name)} throws ${plain((rate * 60) / 1e6, 2)} L/min ${inMm(past, 0)} past the side of tank ${named(tank.name)}, ${inMm(drop)} below its edge; it needs to come down within`,
      ...common(name, at, tank, past),
    };
    return;
  }
}
