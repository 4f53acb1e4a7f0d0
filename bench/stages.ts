import { unfoldPart } from '../src/analysis/fold/unfold.js';
import { findParts } from '../src/analysis/fold/find-parts.js';
import { foldFlat } from '../src/analysis/fold/fold.js';
import { findingsOf } from '../src/analysis/rules/run.js';
import { buildShape } from '../src/analysis/shape/build-shape.js';
import { createStages } from '../src/analysis/stages/stages.js';
import { lower } from '../src/language/lower/to-model.js';
import type { Bench, Work } from './bench.js';
import { linked, loweredTub, parser } from './linked-text.js';
import { tubText, type Variant } from './tub-text.js';

/** Every stage on its own, with the stages before it done. */
export const stageBenches: readonly Bench[] = [
  {
    name: 'parse',
    prepare: (panels) => {
      const text = tubText(panels);
      return () => parser.parse(text);
    },
  },
  {
    name: 'parse and link',
    prepare: (panels) => {
      const text = tubText(panels);
      return () => linked(text);
    },
  },
  {
    name: 'model',
    prepare: async (panels) => {
      const document = await linked(tubText(panels));
      return () => lower([document]);
    },
  },
  {
    name: 'shape',
    prepare: async (panels) => {
      const tub = await loweredTub(panels);
      return () => buildShape(tub);
    },
  },
  {
    name: 'unfold',
    prepare: async (panels) => {
      const tub = await loweredTub(panels);
      const shape = buildShape(tub);
      return () => findParts(tub, shape).map((part) => unfoldPart(tub, shape, part));
    },
  },
  {
    name: 'fold back',
    prepare: async (panels) => {
      const flats = createStages(await loweredTub(panels)).flats();
      return () => flats.map((flat) => flat && foldFlat(flat));
    },
  },
  { name: 'everything, all of it new', prepare: (panels) => checkInTurn(panels, { across: 150 }, { across: 151 }) },
  { name: 'everything, after an edit', prepare: (panels) => checkInTurn(panels, { shelf: 120 }, { shelf: 121 }) },
];

/** All stages and checks of two tubs in turn: what differs between them is never known from the run before. */
const checkInTurn = async (panels: number, ...variants: readonly Variant[]): Promise<Work> => {
  const tubs = await Promise.all(variants.map((variant) => loweredTub(panels, variant)));
  let run = 0;
  return () => findingsOf(createStages(tubs[run++ % tubs.length]));
};
