import type { FlatBend, FlatPattern } from '../../src/analysis/fold/flat-pattern.js';
import type { ContourVertex } from '../../src/analysis/geometry/contour.js';
import { circleContour, reverseContour, slotContour } from '../../src/analysis/geometry/contour.js';

const v = (x: number, y: number, bulge = 0): ContourVertex => ({ x, y, bulge });

/** An L-shaped floor with a rounded corner, one flange bent up above it, a round hole, a slot and a window. */
export const handMadeFlat: FlatPattern = {
  name: 'floor',
  part: 0,
  sheet: 0,
  thickness: 1.2,
  quantity: 2,
  // A 300 x 220 rectangle with a quarter round of 40 at the lower right and a notch at the upper right.
  outline: [v(0, 0), v(260, 0, Math.tan(Math.PI / 8)), v(300, 40), v(300, 160), v(240, 160), v(240, 220), v(0, 220)],
  holes: [
    { contour: reverseContour(circleContour([60, 60], 26)), circle: { center: [60, 60], radius: 26 }, opening: 0 },
    { contour: reverseContour(slotContour([150, 40], [190, 40], 4)), circle: undefined, opening: 1 },
    { contour: [v(200, 90), v(200, 120), v(240, 120), v(240, 90)], circle: undefined, opening: 2 },
  ],
  bends: [
    {
      bend: 0,
      name: 'floor lip',
      start: [0, 150],
      end: [300, 150],
      tangents: [
        [
          [0, 148.5],
          [300, 148.5],
        ],
        [
          [0, 151.5],
          [300, 151.5],
        ],
      ],
      allowance: 3,
      angle: Math.PI / 2,
      direction: 'up',
      radius: 1.2,
      kFactor: 0.325,
      parent: 0,
      child: 1,
    },
  ],
  panels: [
    {
      name: 'floor',
      face: 0,
      region: [v(0, 0), v(260, 0, Math.tan(Math.PI / 8)), v(300, 40), v(300, 148.5), v(0, 148.5)],
    },
    { name: 'lip', face: 1, region: [v(0, 151.5), v(300, 151.5), v(300, 160), v(240, 160), v(240, 220), v(0, 220)] },
  ],
  marks: [
    {
      kind: 'place',
      points: [
        [20, 195],
        [38, 195],
        [38, 205],
        [20, 205],
      ],
      closed: true,
      text: 'c1',
    },
    {
      kind: 'level',
      points: [
        [10, 130],
        [140, 130],
      ],
      closed: false,
      text: undefined,
    },
  ],
  place: undefined,
};

/** The same floor with many narrow strips bent on, for crowding and speed. */
export const crowdedFlat = (count: number): FlatPattern => {
  const pitch = 30;
  const bends = Array.from({ length: count }, (_, i): FlatBend => ({
    bend: i,
    name: `leg${i} leg${i + 1}`,
    start: [0, (i + 1) * pitch],
    end: [80, (i + 1) * pitch],
    tangents: [
      [
        [0, (i + 1) * pitch - 1],
        [80, (i + 1) * pitch - 1],
      ],
      [
        [0, (i + 1) * pitch + 1],
        [80, (i + 1) * pitch + 1],
      ],
    ],
    allowance: 2,
    angle: 0.1 + (i % 7) * 0.2,
    direction: i % 2 === 0 ? 'up' : 'down',
    radius: 1.2,
    kFactor: 0.325,
    parent: i,
    child: i + 1,
  }));
  const top = (count + 1) * pitch;
  return {
    ...handMadeFlat,
    outline: [v(0, 0), v(80, 0), v(80, top), v(0, top)],
    holes: [],
    bends,
    panels: Array.from({ length: count + 1 }, (_, i) => ({
      name: `leg${i}`,
      face: i,
      region: [v(0, i * pitch + 1), v(80, i * pitch + 1), v(80, (i + 1) * pitch - 1), v(0, (i + 1) * pitch - 1)],
    })),
    marks: [],
  };
};
