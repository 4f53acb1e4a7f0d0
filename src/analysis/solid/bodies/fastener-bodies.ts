/** Rivets and screws as the bodies they are: discs, rings and hexagons on one axis. */
import { circleContour, hexagonContour, reverseContour, type Contour } from '../../geometry/contour.js';
import { frameOn } from '../../geometry/frame.js';
import { addScaled, cross, scale, type Vec3 } from '../../geometry/vec.js';
import type { FoldedPart } from '../../fold/flat-pattern.js';
import { nameOfFastener, type FastenerOfRow } from '../../join/fasteners/fastener-size.js';
import type { SeamFastener } from '../../join/seam-fasteners.js';
import { HEAD_HIGH, HEAD_WIDE, type RivetSize } from '../../material/rivets.js';
import { screwLength } from '../../material/screws.js';
import { memoBy } from '../../cache/memo.js';

/** One of the pieces that a fastener is drawn of, along its axis: 0 where the head's side of the sheet is. */
interface Section {
  readonly what: string;
  readonly from: number;
  readonly to: number;
  readonly outline: Contour;
  readonly bore: number;
}

/** mm. A rivet's or screw's pieces touch one another and the sheet, and take no room of either. */
export const fastenerBodies = memoBy((fastener: SeamFastener): readonly FoldedPart[] => {
  const { origin, way } = axisOf(fastener);
  const across: Vec3 = Math.abs(way[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const u = cross(way, across);
  return sectionsOf(fastener).map(({ what, from, to, outline, bore }): FoldedPart => {
    const name = `${nameOfFastener(fastener.fastener)} ${what}`;
    const frame = frameOn(addScaled(origin, way, to), way, u);
    const holes = bore > 0 ? [reverseContour(circleContour([0, 0], bore / 2))] : [];
    const plate = { panel: 0, name, face: undefined, frame, contour: outline, holes };
    return { name, thickness: to - from, plates: [plate], rolls: [] };
  });
});

/** From the head into the sheet. */
const axisOf = ({ place, grip }: SeamFastener): { readonly origin: Vec3; readonly way: Vec3 } => {
  const { point, normal, stack, second, apart, headsOnSecond } = place;
  const top = second === 'above' ? stack[1] + apart : 0;
  const fromBelow = (second === 'below') === headsOnSecond;
  return {
    origin: addScaled(point, normal, fromBelow ? top - grip : top),
    way: fromBelow ? normal : scale(normal, -1),
  };
};

const sectionsOf = ({ fastener, grip, place }: SeamFastener): readonly Section[] =>
  fastener.kind === 'rivet' ? rivetSections(fastener.size, grip) : screwSections(fastener, grip, nutSheet(place));

/** Thickness of the sheet that carries the rivet nut. */
const nutSheet = ({ stack, nutIn }: SeamFastener['place']): number => (nutIn === 'second' ? stack[1] : stack[0]);

const disc = (diameter: number): Contour => circleContour([0, 0], diameter / 2);

const hexagon = (flats: number): Contour => hexagonContour([0, 0], flats);

const rivetSections = ({ diameter }: RivetSize, grip: number): readonly Section[] => {
  const high = HEAD_HIGH * diameter;
  const head = disc(HEAD_WIDE * diameter);
  return [
    { what: 'head', from: -high, to: 0, outline: head, bore: 0 },
    { what: 'shank', from: 0, to: grip, outline: disc(diameter), bore: 0 },
    { what: 'set head', from: grip, to: grip + high, outline: head, bore: 0 },
  ];
};

const screwSections = (
  { size, takenBy, hex }: Extract<FastenerOfRow, { kind: 'screw' }>,
  grip: number,
  sheet: number,
): readonly Section[] => {
  const { thread, washer, flats, head, nut, rivetNut } = size;
  const bored = { bore: thread };
  const high = washer.high;
  const ring = { outline: disc(washer.outer), ...bored };
  const end = (screwLength(size, grip, takenBy) ?? grip + 2 * high + nut + size.pitch) - high;
  const taken: readonly Section[] =
    takenBy === 'rivetnut' && rivetNut
      ? [
          {
            what: 'rivet nut',
            from: grip - sheet,
            to: grip + rivetNut.behind,
            outline: hex ? hexagon(rivetNut.body) : disc(rivetNut.body),
            ...bored,
          },
        ]
      : [
          { what: 'second washer', from: grip, to: grip + high, ...ring },
          { what: 'nut', from: grip + high, to: grip + high + nut, outline: hexagon(flats), ...bored },
        ];
  return [
    { what: 'head', from: -high - head, to: -high, outline: hexagon(flats), bore: 0 },
    { what: 'washer', from: -high, to: 0, ...ring },
    { what: 'shank', from: -high, to: end, outline: disc(thread), bore: 0 },
    ...taken,
  ];
};
