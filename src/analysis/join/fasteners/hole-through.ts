/** Holes for fasteners that no `hole` of the text states. */
import { circleContour, hexagonContour, reverseContour } from '../../geometry/contour.js';
import { addScaled2, type Vec2 } from '../../geometry/vec.js';
import type { FlatHole, FlatMark } from '../../fold/flat-pattern.js';

/** Round, of that diameter; `through`: for people. */
export const holeThrough = (centre: Vec2, diameter: number, through: string): FlatHole => ({
  contour: reverseContour(circleContour(centre, diameter / 2)),
  circle: { center: centre, radius: diameter / 2 },
  opening: undefined,
  through,
});

/** Hexagonal, `flats` from side to side. */
export const hexagonThrough = (centre: Vec2, flats: number, through: string): FlatHole => ({
  contour: reverseContour(hexagonContour(centre, flats)),
  circle: undefined,
  opening: undefined,
  through,
});

/** mm. Arms of the cross that the pen draws where a hole is drilled later. */
const CENTRE_ARM = 2;

/** A cross. */
export const centreMark = (centre: Vec2): readonly FlatMark[] =>
  ([[1, 0], [0, 1]] as const).map((way) => ({
    kind: 'place',
    points: [addScaled2(centre, way, -CENTRE_ARM), addScaled2(centre, way, CENTRE_ARM)],
    closed: false,
    text: undefined,
  })); // prettier-ignore
