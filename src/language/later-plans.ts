import { Cancellation, interruptAndCheck } from 'langium';
import type { FlatPattern } from '../analysis/fold/flat-pattern.js';
import { dryUpOf } from '../analysis/fold/marked-side.js';
import { planMadeOf, planTub } from '../analysis/making/tub-plans.js';
import type { Plan } from '../analysis/making/plan/plan.js';
import type { Tub } from '../analysis/model/tub.js';
import type { Evaluation } from './analyse.js';

/** ms. How long nobody must have asked. */
const QUIET = 300;

/** Plans the bends of tubs whose flats are on show once nobody types, so that the strokes can be numbered on them. */
export class LaterPlans {
  /** Of a tub, by its flats dry side up: also of more parts than are remembered where plans are made. */
  private readonly plans = new WeakMap<Tub, ReadonlyMap<FlatPattern, Plan>>();
  private readonly running = new Map<string, Cancellation.CancellationTokenSource>();

  /** `made`: told when all plans of a text are made that were not. */
  constructor(private readonly made: (uri: string) => void) {}

  /** The plan of a flat, dry side up, where it is made already. */
  planOf(tub: Tub, flat: FlatPattern): Plan | undefined {
    return this.plans.get(tub)?.get(flat) ?? planMadeOf(tub, flat);
  }

  /** Plans what is not planned of a tub, in place of what was begun for the same text before. */
  want(uri: string, evaluation: Evaluation): void {
    this.forget(uri);
    const flats = bentFlatsOf(evaluation);
    if (flats.every((flat) => this.planOf(evaluation.tub, flat))) return;
    const source = new Cancellation.CancellationTokenSource();
    this.running.set(uri, source);
    // Broken off, it is asked for again with the next picture.
    this.plan(uri, evaluation, flats, source.token).catch(() => undefined);
  }

  forget(uri: string): void {
    this.running.get(uri)?.cancel();
    this.running.delete(uri);
  }

  private async plan(
    uri: string,
    { tub }: Evaluation,
    flats: readonly FlatPattern[],
    token: Cancellation.CancellationToken,
  ): Promise<void> {
    await new Promise((resolve) => setTimeout(resolve, QUIET));
    const planning = planTub(tub, flats);
    let step = planning.next();
    for (; !step.done; step = planning.next()) await interruptAndCheck(token);
    this.plans.set(tub, new Map(step.value.flatMap((plan, i) => (plan ? [[flats[i], plan] as const] : []))));
    this.running.delete(uri);
    this.made(uri);
  }
}

const bentFlatsOf = ({ stages }: Evaluation): readonly FlatPattern[] =>
  [...stages.flats(), ...stages.loosePieces()].flatMap((flat) =>
    flat && flat.bends.length > 0 ? [dryUpOf(flat)] : [],
  );
