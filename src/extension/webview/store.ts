import type { SceneItem, ScenePatch, View } from '../../language/protocol.js';

/** What a patch did to one view. */
export interface SceneChanges {
  readonly items: ReadonlyMap<string, SceneItem>;
  readonly changed: ReadonlySet<string>;
  readonly removed: ReadonlySet<string>;
}

interface ViewScene {
  serial: number;
  version: number;
  slip: ScenePatch['slip'];
  readonly items: Map<string, SceneItem>;
}

/** The scene of each view as last sent, and the serial up to which it is complete. */
export class SceneStore {
  private readonly scenes = new Map<View, ViewScene>();

  serialOf(view: View): number {
    return this.scenes.get(view)?.serial ?? 0;
  }

  versionOf(view: View): number {
    return this.scenes.get(view)?.version ?? 0;
  }

  slipOf(view: View): ScenePatch['slip'] {
    return this.scenes.get(view)?.slip;
  }

  itemsOf(view: View): ReadonlyMap<string, SceneItem> {
    return this.scenes.get(view)?.items ?? new Map();
  }

  /** Undefined when the patch is older than what is there. */
  apply(patch: ScenePatch): SceneChanges | undefined {
    const scene = this.scenes.get(patch.view) ?? {
      serial: 0,
      version: 0,
      slip: undefined,
      items: new Map<string, SceneItem>(),
    };
    if (patch.serial <= scene.serial && !patch.whole) return undefined;
    this.scenes.set(patch.view, scene);
    const removed = new Set(patch.whole ? [...scene.items.keys()].filter((key) => !(key in patch.set)) : patch.remove);
    for (const key of removed) scene.items.delete(key);
    for (const [key, item] of Object.entries(patch.set)) scene.items.set(key, item);
    scene.serial = patch.serial;
    scene.version = patch.version;
    scene.slip = patch.slip;
    return { items: scene.items, changed: new Set(Object.keys(patch.set)), removed };
  }
}
