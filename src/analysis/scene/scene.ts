import type { Stages } from '../stages/stages.js';
import { bendScene } from './bend-scene.js';
import type { Curve } from '../solve/curve.js';
import { choiceScene } from './choice-scene.js';
import { note } from './drawn.js';
import { flatScene, type KnownPlan } from './flat-scene.js';
import { foldedScene } from './folded-scene.js';
import { hoursScene } from './water/hours-scene.js';
import { madeScene } from './made-scene.js';
import { nestScene } from './nest-scene.js';
import type { SceneEntry, View } from './scene-items.js';
import type { NestCourse } from '../nest/nest.js';
import { waterScene } from './water/water-scene.js';

/**
 * The items of one view, in drawing order. Computes only the stages which that view needs. Keys are unique, and every
 * number is finite: whatever cannot be drawn is left out, and a note in its place says so.
 */
export const sceneOf = (view: View, stages: Stages, found: Found = {}): SceneEntry[] =>
  withUniqueKeys(builders[view](stages, found).map((entry) => (isFinite(entry.item) ? entry : notDrawn(entry))));

/** What was found for a tub by longer work, if any. */
export interface Found {
  /** The choices between two goals. */
  readonly curve?: Curve | undefined;
  readonly nest?: NestCourse | undefined;
  /** Bend plans, as far as they are made. */
  readonly planOf?: KnownPlan | undefined;
}

const builders: Readonly<Record<View, (stages: Stages, found: Found) => SceneEntry[]>> = {
  flat: (stages, { planOf }) => flatScene(stages, planOf),
  folded: foldedScene,
  water: waterScene,
  hours: hoursScene,
  bends: bendScene,
  nest: (stages, { nest }) => nestScene(stages, nest),
  choices: (stages, { curve }) => choiceScene(stages, curve),
  made: madeScene,
};

const notDrawn = ({ key, at }: SceneEntry): SceneEntry =>
  note(`not-drawn:${key}`, `\`${key.replace(/^[a-z-]+:/, '')}\` is not drawn: no size can be given for it`, at);

/** Are all the numbers in a value? */
const isFinite = (value: unknown): boolean => {
  if (typeof value === 'number') return Number.isFinite(value);
  if (typeof value !== 'object' || value === null) return true;
  for (const key in value) if (!isFinite((value as Readonly<Record<string, unknown>>)[key])) return false;
  return true;
};

/** Two things of one name (itself a finding) still get two keys. */
const withUniqueKeys = (entries: readonly SceneEntry[]): SceneEntry[] => {
  const seen = new Map<string, number>();
  return entries.map((entry) => {
    const count = (seen.get(entry.key) ?? 0) + 1;
    seen.set(entry.key, count);
    return count === 1 ? entry : { ...entry, key: `${entry.key}#${count}` };
  });
};
