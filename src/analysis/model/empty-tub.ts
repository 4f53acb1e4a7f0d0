import type { SourceId, Tub } from './tub.js';

/** A tub of which nothing is stated; `at` is where its text begins. */
export const emptyTub = (at: SourceId): Tub => ({
  name: '',
  at,
  parameters: [],
  sheets: [],
  panels: [],
  strips: [],
  bends: [],
  seams: [],
  rims: [],
  outlets: [],
  openings: [],
  level: undefined,
  liquid: undefined,
  inflows: [],
  paths: [],
  tanks: [],
  dryZones: [],
  keepouts: [],
  accepts: [],
  shop: undefined,
  aim: undefined,
});
