/** All that the pages of a traveller are made from, looked up once. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import { dryUpOf } from '../../fold/marked-side.js';
import { flatsToMake } from '../../stages/flats-to-cut.js';
import type { Plan } from '../../making/plan/plan.js';
import { planTub } from '../../making/tub-plans.js';
import type { Nest } from '../../nest/nest.js';
import { nestWithWords } from '../flat/nest-files.js';
import { numberedStrokes, type Stroke } from '../../report/flats/numbered-strokes.js';
import type { Stages } from '../../stages/stages.js';
import type { Tub } from '../../model/tub.js';
import type { Progress } from '../exporter.js';
import { sceneryOf, type Scenery } from './figures/folded-figure.js';
import type { Units } from './layout/units.js';

export interface Job {
  readonly stages: Stages;
  readonly tub: Tub;
  readonly units: Units;
  readonly flats: readonly FlatPattern[];
  readonly nest: Nest;
  readonly scenery: Scenery;
  /** The bend plan of a flat, clips included. */
  readonly planOf: (flat: FlatPattern) => Plan;
}

export function* jobOf(stages: Stages, units: Units, nestTries: number | undefined): Generator<Progress, Job> {
  const nest = yield* nestWithWords(stages, nestTries);
  const flats = flatsToMake(stages);
  const plans = yield* plansOf(stages, flats);
  return {
    stages,
    units,
    nest,
    flats,
    tub: stages.tub,
    scenery: sceneryOf(stages.folded()),
    planOf: (flat) => plans.get(flat) ?? unreachable(),
  };
}

const unreachable = (): never => {
  throw new Error('a flat has no bend plan');
};

/** Plans are remembered where they are made, so that a second paper costs no second search. */
function* plansOf(stages: Stages, flats: readonly FlatPattern[]): Generator<Progress, ReadonlyMap<FlatPattern, Plan>> {
  const planning = planTub(stages.tub, flats.map(dryUpOf));
  let step = planning.next();
  for (; !step.done; step = planning.next()) yield { doing: `Planning the bends of ${flats[step.value.part].name}` };
  return new Map(step.value.flatMap((plan, i) => (plan ? [[flats[i], plan] as const] : [])));
}

/** `3`: the number of a piece in the parts list. */
export const pieceNumber = (job: Job, flat: FlatPattern): string => String(job.flats.indexOf(flat) + 1);

export const strokesOf = (job: Job, flat: FlatPattern): Stroke[] => numberedStrokes(flat, job.planOf(flat));
