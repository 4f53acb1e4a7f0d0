/** The items of the bends in the order in which they are listed. */
import type { BendOrderItem, BendRowItem, BendStepItem, SceneItem } from '../../../language/protocol.js';
import { html } from '../dom.js';

/** Items of the n-th part count from n times this. */
const PART = 100_000;

type Ordered = BendOrderItem | BendStepItem | BendRowItem;

const isOrdered = (entry: readonly [string, SceneItem]): entry is [string, Ordered] =>
  entry[1].kind === 'bend-order' || entry[1].kind === 'bend-step' || entry[1].kind === 'bend-row';

export const inOrder = (items: ReadonlyMap<string, SceneItem>): [string, Ordered][] =>
  [...items].filter(isOrdered).sort((a, b) => a[1].order - b[1].order);

export const bendKeysOf = (item: SceneItem | undefined): readonly string[] =>
  item?.kind === 'bend-step' ? item.bends.map((bend) => `bend:${bend}`) : [];

/** A part with what is known of its order, and what would free it where there is none. */
export const heading = ({ name, told }: BendOrderItem): HTMLElement => {
  const [order, ...more] = told.facts;
  return html(
    'div',
    { class: 'order', role: 'listitem' },
    html('strong', {}, name),
    html('p', {}, order),
    ...(more.length === 0 ? [] : [html('ul', {}, ...more.map((fact) => html('li', {}, fact)))]),
  );
};

/** `3. ` before a stroke of an order; nothing before others. */
export const numberOf = (item: BendStepItem | BendRowItem): string =>
  item.kind === 'bend-step' && item.hit === undefined ? `${item.order % PART}. ` : '';
