import type { DrawnContour, FlatBendItem, FlatPanelItem, FlatPartItem } from '../../../language/protocol.js';

type Point = readonly [number, number];

/** The same flat as it is seen from its other side: left and right change places, and so do up and down. */
export const partTurned = (part: FlatPartItem): FlatPartItem => {
  const over = mirrorOf(part);
  return {
    ...part,
    side: part.side === 'dry' ? 'wet' : 'dry',
    outline: contourTurned(part.outline, over),
    holes: part.holes.map((hole) => contourTurned(hole, over)),
    marks: part.marks.map((mark) => ({ ...mark, points: mark.points.map(over) })),
    nicks: part.nicks.map(([from, to]) => [over(from), over(to)] as const),
    facing: {
      at: over(part.facing.at),
      panel: part.facing.panel.map(over),
      ways: part.facing.ways.map(({ name, towards: [x, y] }) => ({ name, towards: [-x, y] as const })),
    },
    datum: part.datum === 'left' ? 'right' : 'left',
  };
};

export const panelTurned = (panel: FlatPanelItem, part: FlatPartItem): FlatPanelItem => ({
  ...panel,
  region: contourTurned(panel.region, mirrorOf(part)),
});

export const bendTurned = (bend: FlatBendItem, part: FlatPartItem): FlatBendItem => {
  const over = mirrorOf(part);
  const [[a, b], [c, d]] = bend.tangents;
  return {
    ...bend,
    start: over(bend.start),
    end: over(bend.end),
    tangents: [
      [over(a), over(b)],
      [over(c), over(d)],
    ],
    direction: bend.direction === 'up' ? 'down' : 'up',
  };
};

const mirrorOf =
  ({ box: [left, , right] }: FlatPartItem) =>
  ([x, y]: Point): Point => [left + right - x, y];

/** Walked the other way round, so that its inside stays on the left: an arc then keeps its bulge, on the side that it ran. */
const contourTurned = (contour: DrawnContour, over: (point: Point) => Point): DrawnContour => {
  const last = contour.length - 1;
  return contour.map((_, i) => {
    const [x, y] = contour[last - i];
    const [, , bulge] = contour[(2 * last - i) % contour.length];
    return [...over([x, y]), bulge] as const;
  });
};
