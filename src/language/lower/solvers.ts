import { evaluate, valueOf } from './evaluate.js';
import { faceOf, middleOf } from './faces.js';
import type { Solvers } from './lowering.js';

export const solvers: Solvers = { evaluate, valueOf, faceOf, middleOf };
