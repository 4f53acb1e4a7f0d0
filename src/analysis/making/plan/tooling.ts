/** Which machine, die and way round for each step of an order that was found. */
import { costOf, handlingBetween, poseOf } from './pose.js';
import type { Setup } from '../bend-fit.js';
import type { OrderedStep, Progress } from './search.js';
import { isSameTooling, type StepChecker } from './stroke/step-check.js';
import type { GoodStep } from './stroke/step.js';

/** Weights, each beyond all that the next ones can sum up to over the steps of a part. */
const HANDLING = 1e9;
const OFF_THE_CHARTS = 2e7;
const OTHER_MACHINE = 1e6;
const OTHER_DIE = 1e5;
const FROM_THE_END = 2e3;
const NO_SQUARE_STOP = 1e3;
const AT_THE_END_OF_THE_BED = 10;

interface Choice {
  readonly cost: number;
  readonly steps: readonly OrderedStep[];
}

/**
 * Keeps the order and chooses again what else is free: no more flips and turns than before, then dies on the charts, then the
 * fewest changes of machine and of die, loading from the front, something straight at the stop, and the setups that suit each bend best.
 * Looks at the tooling that the order was found with and at each bend's favourite. Cost: steps x tooling^2.
 */
export function* chooseTooling(
  checker: StepChecker,
  order: readonly OrderedStep[],
  progress: () => Progress,
): Generator<Progress, readonly OrderedStep[]> {
  const found = order.map(({ step }) => step.setup);
  let bent = checker.made;
  let choices: readonly Choice[] = [{ cost: 0, steps: [] }];
  for (const { operation } of order) {
    yield progress();
    const favourite = checker.favourite(operation);
    const options = optionsFor(
      checker,
      operation,
      bent,
      (setup) => setup === favourite || found.some((one) => isSameTooling(one, setup)),
    );
    const before = choices;
    choices = options.map(({ ordered, rank }) =>
      before
        .map(({ cost, steps }): Choice => ({
          cost: cost + rank + changeCost(steps.at(-1), ordered),
          steps: [...steps, ordered],
        }))
        .reduce((best, choice) => (choice.cost < best.cost ? choice : best)),
    );
    bent |= 1n << BigInt(operation);
  }
  return choices.reduce((best, choice) => (choice.cost < best.cost ? choice : best)).steps;
}

interface Option {
  readonly ordered: OrderedStep;
  readonly rank: number;
}

const optionsFor = (
  checker: StepChecker,
  operation: number,
  bent: bigint,
  isAskedFor: (setup: Setup) => boolean,
): readonly Option[] =>
  ([0, 1] as const).flatMap((back) => {
    const pose = poseOf(checker.operations[operation], back);
    return checker.checkAll({ operation, bent, back }, isAskedFor).flatMap((step, i): Option[] => {
      if (!step.ok) return [];
      return [{ ordered: { operation, back, pose, step }, rank: i + hardship(step) }];
    });
  });

const hardship = ({ setup, load, stop, placement }: GoodStep): number =>
  (setup.shortfalls.some(({ kind }) => kind === 'opening') ? OFF_THE_CHARTS : 0) +
  (load === 'end' ? FROM_THE_END : 0) +
  (stop.square ? 0 : NO_SQUARE_STOP) +
  (placement === 'middle' ? 0 : AT_THE_END_OF_THE_BED);

const changeCost = (from: OrderedStep | undefined, to: OrderedStep): number => {
  if (!from) return 0;
  const handling = HANDLING * costOf(handlingBetween(from.pose, to.pose));
  const [a, b] = [from.step.setup, to.step.setup];
  if (isSameTooling(a, b)) return handling;
  const isSameMachine = a.machine.kind === b.machine.kind && a.machine.index === b.machine.index;
  return handling + (isSameMachine ? OTHER_DIE : OTHER_MACHINE);
};
