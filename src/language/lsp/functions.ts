import type { Call } from '../generated/ast.js';

/** How a function is called: what it takes, what it gives. */
export interface FunctionForm {
  readonly parameters: readonly string[];
  /** The last one may be given any number of times. */
  readonly isRepeated?: true;
  readonly gives: string;
}

const angleOf = (gives: string): FunctionForm => ({ parameters: ['angle'], gives });

export const functionForms: Readonly<Record<Call['function'] | 'center', FunctionForm>> = {
  sin: angleOf('The sine of an angle, such as `sin(30 deg)`: a number.'),
  cos: angleOf('The cosine of an angle, such as `cos(60 deg)`: a number.'),
  tan: angleOf('The tangent of an angle, such as `tan(3 deg)`: a number.'),
  asin: { parameters: ['number'], gives: 'The angle whose sine this is.' },
  acos: { parameters: ['number'], gives: 'The angle whose cosine this is.' },
  atan: { parameters: ['number'], gives: 'The angle whose tangent this is.' },
  atan2: { parameters: ['height', 'run'], gives: 'The angle that rises so much over that run; both of one kind.' },
  sqrt: { parameters: ['value'], gives: 'The square root: of a length times a length it is a length.' },
  min: { parameters: ['value', 'value'], isRepeated: true, gives: 'The least of values of one kind.' },
  max: { parameters: ['value', 'value'], isRepeated: true, gives: 'The greatest of values of one kind.' },
  abs: { parameters: ['value'], gives: 'The value without its sign.' },
  round: {
    parameters: ['value', 'step'],
    gives: 'The nearest multiple of the step, such as `round(w, 5 mm)`; of 1 unless given.',
  },
  mid: { parameters: ['point', 'point'], gives: 'The point halfway between two points.' },
  toward: { parameters: ['from', 'to', 'length'], gives: 'From the first point towards the second, by a length.' },
  center: { parameters: ['panel'], gives: 'The middle of the area of a panel: a point.' },
};

export const isFunctionWord = (word: string): word is keyof typeof functionForms => Object.hasOwn(functionForms, word);
