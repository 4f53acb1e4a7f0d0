/** Parts that are cut, with other values: what is cut keeps the size that it was cut to. */
import { SAME_POINT } from '../geometry/tolerance.js';
import { distance, type Vec3 } from '../geometry/vec.js';
import type { PanelIndex, Tub } from '../model/tub.js';
import { cutParts } from '../stages/flats-to-cut.js';
import type { Stages } from '../stages/stages.js';

export interface ResizedPart {
  readonly name: string;
  /** mm, the largest change of a length in its panels, or of a size or place of what is cut out of them. */
  readonly by: number;
}

/** Cut parts of a tub that would have to be of another size with the values of another evaluation of its text; both as drawn. */
export const resizedParts = (before: Stages, after: Stages): readonly ResizedPart[] => {
  const [from, to] = [before, after].map((stages) => stages.planned()?.tub ?? stages.tub);
  const cut = cutParts(before);
  return before.parts().flatMap(({ index, name, faces }): readonly ResizedPart[] => {
    if (!cut.has(index)) return [];
    const by = Math.max(...faces.map((face) => changeOf(sizesOf(from, face), sizesOf(to, face))));
    return by > SAME_POINT ? [{ name, by }] : [];
  });
};

const changeOf = (from: readonly number[], to: readonly number[]): number =>
  from.length === to.length ? from.reduce((most, size, i) => Math.max(most, Math.abs(size - to[i])), 0) : Infinity;

/** Lengths that tell the outline of a panel, its sheet and what is cut out of it, wherever it lies. */
const sizesOf = ({ panels, openings, sheets }: Tub, index: PanelIndex): readonly number[] => {
  const panel = panels[index];
  if (!panel) return [];
  const { corners } = panel;
  const toCorners = (point: Vec3): readonly number[] => corners.slice(0, 3).map((corner) => distance(corner, point));
  const spans = corners.flatMap((corner, k) =>
    [1, 2].map((step) => distance(corner, corners[(k + step) % corners.length])),
  );
  const cutOut = openings.filter((each) => each.panel === index).flatMap(({ shape }) => Object.values(shape));
  const sizes = cutOut.flatMap((value: unknown): readonly number[] => {
    if (typeof value === 'number') return [value];
    return isPoint(value) ? toCorners(value) : [];
  });
  return [...spans, sheets[panel.sheet].thickness, ...sizes];
};

const isPoint = (value: unknown): value is Vec3 =>
  Array.isArray(value) && value.length === 3 && value.every((each) => typeof each === 'number');
