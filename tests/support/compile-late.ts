/**
 * Runs in each worker before its tests: most code runs too short there to be worth what compiling it for speed costs. The engines
 * of later Node have no such setting.
 */
import { setFlagsFromString } from 'node:v8';

if (process.versions.node.startsWith('20.')) setFlagsFromString('--interrupt-budget=1000000');
