export interface Sized {
  readonly key: string;
  readonly width: number;
  readonly height: number;
}

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Places boxes in rows from the top left, in order, in about the proportions asked for. Returns the lower left corners, y up. */
export const layOutRows = (boxes: readonly Sized[], proportion: number, gap: number): ReadonlyMap<string, Spot> => {
  const area = boxes.reduce((sum, box) => sum + (box.width + gap) * (box.height + gap), 0);
  const widest = boxes.reduce((widest, box) => Math.max(widest, box.width), 0);
  const rowWidth = Math.max(widest, Math.sqrt(area * proportion) * 1.05);
  const spots = new Map<string, Spot>();
  let [x, top, rowHeight] = [0, 0, 0];
  for (const box of boxes) {
    if (x > 0 && x + box.width > rowWidth) {
      top -= rowHeight + gap;
      [x, rowHeight] = [0, 0];
    }
    spots.set(box.key, { x, y: top - box.height });
    x += box.width + gap;
    rowHeight = Math.max(rowHeight, box.height);
  }
  return spots;
};
