import { limits } from '../../analysis/model/limits.js';
import { isRepeat, type Mirror, type Repeat } from '../generated/ast.js';
import { countOf, excessOf } from '../made-groups.js';
import type { Lowering } from './lowering.js';

/** What keeps a `mirror` or a `repeat` from making anything; their places are told where they are evaluated. */
export const tellMakings = (lowering: Lowering, nodes: readonly (Mirror | Repeat)[]): void => {
  for (const node of nodes) {
    if (isRepeat(node) && node.count !== undefined && countOf(node) === undefined) tellCount(lowering, node);
    const has = excessOf(node.$container, node);
    if (has === undefined) continue;
    const { atMost, name } = limits.made;
    lowering.reports.add(
      'value/out-of-range',
      lowering.idOf(node),
      `With this there would be ${has} statements and legs made again; a file needs at most ${atMost}, the limit of ${name}`,
      { values: { has_count: has, needs_count: atMost } },
    );
  }
};

const tellCount = (lowering: Lowering, node: Repeat): void => {
  const { atMost } = limits.repeats;
  lowering.reports.add(
    'value/out-of-range',
    lowering.idOf(node, 'count'),
    `\`${node.group?.$refText ?? '?'}\` is to stand ${node.count} times; it needs a whole number from 2, the one that is written and one more, to ${atMost}`,
    { values: { has_count: node.count, needs_count: 2 } },
  );
};
