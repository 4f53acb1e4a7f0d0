/** Runs in each worker before its tests: most code runs too short there to be worth what compiling it for speed costs. */
import { setFlagsFromString } from 'node:v8';

setFlagsFromString('--interrupt-budget=1000000');
