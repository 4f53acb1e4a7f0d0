import { evaluate, valueOf } from './values/evaluate.js';
import { faceOf, middleOf } from './panels/faces.js';
import { placeNear } from './around/taped.js';
import type { Solvers } from './lowering.js';

export const solvers: Solvers = { evaluate, valueOf, faceOf, middleOf, placeNear };
