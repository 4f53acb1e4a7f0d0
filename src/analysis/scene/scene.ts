import type { Stages } from '../stages/stages.js';
import { bendScene } from './bend-scene.js';
import { flatScene } from './flat-scene.js';
import { foldedScene } from './folded-scene.js';
import type { SceneEntry, View } from './scene-items.js';
import { waterScene } from './water-scene.js';

/** The items of one view, in drawing order. Computes only the stages which that view needs. Keys are unique. */
export const sceneOf = (view: View, stages: Stages): SceneEntry[] => withUniqueKeys(builders[view](stages));

const builders: Readonly<Record<View, (stages: Stages) => SceneEntry[]>> = {
  flat: flatScene,
  folded: foldedScene,
  water: waterScene,
  bends: bendScene,
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
