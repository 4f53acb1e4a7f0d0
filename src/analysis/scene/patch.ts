import type { SceneEntry, SceneItem } from './scene-items.js';

export interface SceneChange {
  readonly set: Readonly<Record<string, SceneItem>>;
  readonly remove: readonly string[];
}

/** A scene as the preview has it: the text of each item by key. */
export type DrawnScene = ReadonlyMap<string, string>;

export const NOTHING_DRAWN: DrawnScene = new Map();

/** What to send so that a preview that shows `before` shows `entries`, and what it then shows. O(size of the scene). */
export const changeOf = (
  before: DrawnScene,
  entries: readonly SceneEntry[],
): { readonly change: SceneChange; readonly after: DrawnScene } => {
  const after = new Map<string, string>();
  const set: Record<string, SceneItem> = {};
  for (const { key, item } of entries) {
    const text = JSON.stringify(item);
    after.set(key, text);
    if (before.get(key) !== text) set[key] = item;
  }
  return { change: { set, remove: [...before.keys()].filter((key) => !after.has(key)) }, after };
};
