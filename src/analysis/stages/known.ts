/**
 * An edit changes little: what came out alike in the run before is handed on as the same object, so that later stages may
 * keep by the object what they made of it (`memoBy`). No outcome depends on what was seen before.
 */
import { deepEqual } from '../cache/deep-equal.js';
import type { Tub } from '../model/tub.js';
import { LruCache } from '../cache/lru-cache.js';
import type { Shape } from '../shape/shape.js';

/** Tubs kept: those that are open side by side. */
const KEPT = 8;

/** Hands `next` what it made the last time it was called with that name. */
const byName = <T>(next: (now: T, before: T) => T): ((name: string, now: T) => T) => {
  const last = new LruCache<T>(KEPT);
  return (name, now) => {
    const before = last.get(name);
    const kept = before === undefined ? now : next(now, before);
    last.set(name, kept);
    return kept;
  };
};

/** The items of `now`, those alike in `before` as the objects they were there; `before` itself when all are. */
const keepItems = <T>(now: readonly T[], before: readonly T[]): readonly T[] => {
  let changed = now.length !== before.length;
  const items = now.map((item, i) => {
    if (i < before.length && deepEqual(before[i], item)) return before[i];
    changed = true;
    return item;
  });
  return changed ? items : before;
};

/** Each statement as the object it was when the tub of that name was last seen, unless it changed. */
export const asKnownTub = (tub: Tub): Tub => keepTub(tub.name, tub);

const keepTub = byName<Tub>((now, before) => ({
  ...now,
  sheets: keepItems(now.sheets, before.sheets),
  panels: keepItems(now.panels, before.panels),
  ...(now.drawn && { drawn: keepItems(now.drawn, before.drawn ?? []) }),
  rims: keepItems(now.rims, before.rims),
  seams: keepItems(now.seams, before.seams),
  ...(now.faceJoints && { faceJoints: keepItems(now.faceJoints, before.faceJoints ?? []) }),
  ...(now.things && { things: keepItems(now.things, before.things ?? []) }),
  shop: deepEqual(now.shop, before.shop) ? before.shop : now.shop,
}));

/** Each face and bend as the object it was when the tub of that name was last seen, unless it changed. */
export const asKnownShape = (tub: Tub, shape: Shape): Shape => keepShape(tub.name, shape);

const keepShape = byName<Shape>((now, before) => ({
  ...now,
  faces: keepItems(now.faces, before.faces),
  bends: keepItems(now.bends, before.bends),
}));
