import type { Stages } from '../stages/stages.js';
import { bendScene } from './bend-scene.js';
import type { Curve } from '../solve/curve.js';
import { choiceScene } from './choice-scene.js';
import { note } from './drawn.js';
import { flatScene } from './flat-scene.js';
import { foldedScene } from './folded-scene.js';
import type { SceneEntry, View } from './scene-items.js';
import { waterScene } from './water-scene.js';

/**
 * The items of one view, in drawing order. Computes only the stages which that view needs. Keys are unique, and every
 * number is finite: whatever cannot be drawn is left out, and a note in its place says so.
 * `curve`: the choices that were worked out for this tub, if any.
 */
export const sceneOf = (view: View, stages: Stages, curve?: Curve): SceneEntry[] =>
  withUniqueKeys(builders[view](stages, curve).map((entry) => (isFinite(entry.item) ? entry : notDrawn(entry))));

const builders: Readonly<Record<View, (stages: Stages, curve: Curve | undefined) => SceneEntry[]>> = {
  flat: flatScene,
  folded: foldedScene,
  water: waterScene,
  bends: bendScene,
  choices: choiceScene,
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
