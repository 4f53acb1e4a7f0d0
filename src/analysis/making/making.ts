/** Can this shop cut and bend the tub? What is cheap enough for every keystroke; bending orders are planned on demand. */
import { deepEqual } from '../cache/deep-equal.js';
import { bentFlat } from '../fold/bent-flat.js';
import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Sheet, Shop, SourceId, Tub } from '../model/tub.js';
import type { Shape } from '../shape/shape.js';
import { checkBends, type BendCheck } from './bend-check.js';
import { shopOf } from '../model/shop/default-shop.js';

export interface Making {
  readonly shop: Shop;
  /** Nobody named a shop: the documented default is meant. */
  readonly isDefaultShop: boolean;
  /** Per piece that is cut: parts, then clips. */
  readonly pieces: readonly CutPart[];
  /** The check of a bend of the shape; undefined where its part cannot be laid flat. */
  readonly bendCheck: (bend: number) => BendCheck | undefined;
}

export interface CutPart {
  readonly flat: FlatPattern;
  readonly bends: readonly BendCheck[];
}

export interface MakingInput {
  readonly tub: Tub;
  /** Everything that is cut. */
  readonly flats: readonly FlatPattern[];
}

/** Cost: linear in bends times machines and dies. */
export const makingOf = ({ tub, flats }: MakingInput): Making => {
  const shop = shopOf(tub);
  const pieces = flats.map((flat): CutPart => ({ flat, bends: checksOf(flat, tub.sheets[flat.sheet], shop) }));
  const byBend = new Map<number, BendCheck>();
  for (const { bends } of pieces) {
    for (const check of bends) if (check.bend.bend !== undefined) byBend.set(check.bend.bend, check);
  }
  return { shop, isDefaultShop: tub.shop === undefined, pieces, bendCheck: (bend) => byBend.get(bend) };
};

/** The checks made last of each flat, and what they were made for. */
const made = new WeakMap<
  FlatPattern,
  { readonly sheet: Sheet; readonly shop: Shop; readonly bends: readonly BendCheck[] }
>();

/** `checkBends`, remembered: a flat that did not change is checked anew only for another sheet or shop. */
const checksOf = (flat: FlatPattern, sheet: Sheet, shop: Shop): readonly BendCheck[] => {
  const before = made.get(flat);
  if (before && deepEqual(before.sheet, sheet) && deepEqual(before.shop, shop)) return before.bends;
  const bends = checkBends(bentFlat(flat), sheet, shop);
  made.set(flat, { sheet, shop, bends });
  return bends;
};

/** Where a bend of a flat stands in the text: its own statement, else the panel it is on, else the tub. */
export const placeOfBend = (
  tub: Tub,
  shape: Shape,
  flat: FlatPattern,
  bend: FlatPattern['bends'][number],
): SourceId => {
  if (bend.bend !== undefined) return shape.bends[bend.bend].at;
  const { face } = flat.panels[bend.parent];
  return face === undefined ? placeOfFlat(tub, flat) : tub.panels[face].at;
};

/** Where a piece stands in the text: its first panel that is written there, else the tub. */
export const placeOfFlat = (tub: Tub, flat: FlatPattern): SourceId => {
  const panel = flat.panels.find(({ face }) => face !== undefined);
  return panel?.face === undefined ? tub.at : tub.panels[panel.face].at;
};
