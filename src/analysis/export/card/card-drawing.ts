/** Patterns of card as lines and words, at a scale: solid to cut, dashed to fold. mm on paper, y down. */
import { distance2, lerp2, type Vec2 } from '../../geometry/vec.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { insidePlace } from '../../geometry/inside-place.js';
import { line, WEIGHT, words, type LineMark } from '../traveller/layout/mark.js';
import type { TrueMark } from '../traveller/tiled-pages.js';
import { gaugeMark } from '../../fold/bend-words.js';
import type { CardFlap, CardFold, CardPattern } from './card-pattern.js';

const LABEL = 3.3;
const FOLDS = { up: 'dashes', down: 'chain' } as const;

/** `scale`: mm on the part to one on paper. */
export const cardMarks = ({ panels, folds, flaps }: CardPattern, scale: number): TrueMark[] => {
  const put = ([x, y]: Vec2): Vec2 => [x / scale, -y / scale];
  const glued = flaps.filter(({ outline }) => outline.length > 0);
  const bases = glued.map(({ outline: [from, to] }): Segment => [from, to]);
  const folded = [...folds.map(({ from, to }): Segment => [from, to]), ...bases];
  const edges = panels.flatMap(({ outline }) =>
    outline.flatMap((from, i) => restOf([from, outline[(i + 1) % outline.length]], folded)),
  );
  return [
    ...edges.map((edge) => line(edge.map(put), WEIGHT.plain)),
    ...panels.flatMap(({ holes }) => holes.map((hole) => line(hole.map(put), WEIGHT.plain, { closed: true }))),
    ...folds.flatMap((fold) => foldMarks(fold, put)),
    ...glued.flatMap((flap) => flapMarks(flap, put)),
    ...flaps.map(({ seam, label }) => numberMark(String(seam + 1), put(label))),
    ...panels.map(({ name, outline }) =>
      words(name.split('.').pop() ?? name, put(insidePlace(outline)), LABEL, { align: 'middle' }),
    ),
  ];
};

type Put = (point: Vec2) => Vec2;
type Segment = readonly [Vec2, Vec2];

const foldMarks = ({ from, to, direction, angle }: CardFold, put: Put): TrueMark[] => {
  const [a, b] = [put(from), put(to)];
  const text = `${direction} ${gaugeMark(angle)}`;
  const [x, y] = lerp2(a, b, 0.3);
  return [
    line([a, b], WEIGHT.thin, { dash: FOLDS[direction] }),
    ...(distance2(a, b) < 25 ? [] : [words(text, [x, y - 0.8], LABEL * 0.9, { align: 'middle' })]),
  ];
};

const flapMarks = ({ outline }: CardFlap, put: Put): LineMark[] => {
  const [from, to, far, near] = outline.map(put);
  return [line([from, to], WEIGHT.thin, { dash: 'chain' }), line([from, near, far, to], WEIGHT.thin)];
};

const numberMark = (text: string, [x, y]: Vec2): TrueMark =>
  words(text, [x, y + LABEL * 0.36], LABEL, { align: 'middle', weight: 'bold' });

/** What of an edge is no fold: it is cut. */
const restOf = (edge: Segment, folds: readonly Segment[]): Segment[] => {
  const [from, to] = edge;
  const length = distance2(from, to);
  if (length === 0) return [];
  const along = ([x, y]: Vec2): number =>
    ((x - from[0]) * (to[0] - from[0]) + (y - from[1]) * (to[1] - from[1])) / length;
  const off = ([x, y]: Vec2): number =>
    Math.abs((x - from[0]) * (to[1] - from[1]) - (y - from[1]) * (to[0] - from[0])) / length;
  const covered = folds
    .filter((fold) => fold.every((point) => off(point) <= SAME_POINT))
    .map((fold) => fold.map(along).sort((a, b) => a - b))
    .map(([a, b]) => [Math.max(0, a), Math.min(length, b)])
    .filter(([a, b]) => b - a > SAME_POINT)
    .sort(([a], [b]) => a - b);
  const rest: Segment[] = [];
  let at = 0;
  for (const [a, b] of [...covered, [length, length]]) {
    if (a - at > SAME_POINT) rest.push([lerp2(from, to, at / length), lerp2(from, to, a / length)]);
    at = Math.max(at, b);
  }
  return rest;
};
