import type { FlatPartItem } from '../../../language/protocol.js';
import { svg } from '../dom.js';
import { gather } from './gather.js';
import { leader, type Label } from './labels.js';

type Hole = FlatPartItem['holes'][number];

/** The letter of every hole; where holes of one letter are seen close together, one letter with their number. */
export const letterLabels = ({ letters, holes }: FlatPartItem): Label[] => {
  const byLetter = new Map<string, Hole[]>();
  for (const { letter, hole } of letters) {
    const alike = byLetter.get(letter);
    if (alike) alike.push(holes[hole]);
    else byLetter.set(letter, [holes[hole]]);
  }
  return [...byLetter].flatMap(([letter, alike]) =>
    gather(alike.map((hole) => middleOf(hole))).map(({ points, middle, from, to }) => ({
      ...letterLabel(points.length === 1 ? letter : `${points.length} \u00d7 ${letter}`, alike[middle]),
      range: [from, to] as const,
    })),
  );
};

const extentOf = (hole: Hole): { left: number; right: number; bottom: number; top: number } => {
  const [xs, ys] = [hole.map(([x]) => x), hole.map(([, y]) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) };
};

const middleOf = (hole: Hole): readonly [number, number] => {
  const { left, right, bottom, top } = extentOf(hole);
  return [(left + right) / 2, (bottom + top) / 2];
};

/** Beside the hole, at its upper right. */
const letterLabel = (letter: string, hole: Hole): Label => {
  const { left, right, bottom, top } = extentOf(hole);
  const middle = [(left + right) / 2, -(bottom + top) / 2] as const;
  const words = (): SVGTextElement => svg('text', { class: 'letter' }, letter);
  const inside: Label = {
    element: words(),
    x: middle[0],
    y: middle[1],
    turn: 0,
    lines: 0.35,
    room: (right - left) * 0.6,
    weight: 3.8,
  };
  return {
    ...inside,
    element: words(),
    x: right,
    y: -top,
    lines: 0,
    room: Infinity,
    shifts: [
      [7, 0],
      [9, 12],
    ],
    or: {
      ...inside,
      or: {
        ...inside,
        element: words(),
        room: Infinity,
        shifts: [24, 38].flatMap((far) => [
          [far, -far] as const,
          [-far, -far] as const,
          [far, far] as const,
          [-far, far] as const,
        ]),
        leader: leader(middle, true),
      },
    },
  };
};
