import { expect, test } from 'vitest';
import { firstFree, type Box } from '../../src/extension/webview/bends/free-place.js';

const place = (...box: Box): { readonly box: Box } => ({ box });
/** Its slanted side leaves the corner at the upper right free. */
const triangle = [
  [0, 0],
  [10, 0],
  [0, 10],
] as const;

test('words go to the first place that no outline reaches into', () => {
  const places = [place(1, 1, 3, 3), place(9, -1, 12, 1), place(7, 7, 9, 9), place(20, 0, 22, 2)];
  expect(firstFree(places, [triangle])).toBe(places[2]);
});

test('an outline within the words is in their way, and so are words within an outline', () => {
  const around = place(-5, -5, 15, 15);
  const free = place(20, 20, 21, 21);
  expect(firstFree([around, free], [triangle])).toBe(free);
  expect(firstFree([place(1, 1, 2, 2), free], [triangle])).toBe(free);
});

test('where no place is free the first is taken', () => {
  const first = place(1, 1, 2, 2);
  expect(firstFree([first, place(2, 2, 3, 3)], [triangle])).toBe(first);
});
