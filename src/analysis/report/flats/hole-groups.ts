import type { FlatPattern } from '../../fold/flat-pattern.js';
import { areaOfContour, extentOfContour } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { Tub } from '../../model/tub.js';

/** Holes of a flat that are alike, by the letter that they bear on paper and on the screen. */
export interface HoleGroup {
  readonly letter: string;
  /** What they are for. */
  readonly name: string;
  /** mm. */
  readonly size:
    | { readonly kind: 'round'; readonly diameter: number }
    | { readonly kind: 'hexagon'; readonly acrossFlats: number }
    | { readonly kind: 'box'; readonly width: number; readonly height: number };
  /** Indices into the holes of the flat. */
  readonly holes: readonly number[];
}

/** Like holes share a letter; reliefs and slots of tabs, which are left to the drawing file, have none. O(n). */
export const holeGroups = (tub: Pick<Tub, 'openings'>, flat: FlatPattern): HoleGroup[] => {
  const groups = new Map<string, { names: Set<string>; size: HoleGroup['size']; holes: number[] }>();
  flat.holes.forEach((hole, i) => {
    const { opening, through } = hole;
    if (opening === undefined && through === undefined) return;
    const { name, use, fastener } =
      opening === undefined ? { name: '', use: 'hole', fastener: undefined } : tub.openings[opening];
    const size = sizeOf(hole, fastener?.hex ?? through?.startsWith('hexagonal') ?? false);
    const what = fastener
      ? `${fastener.kind === 'rivetnut' ? (fastener.hex ? 'hexagonal rivet nut' : 'rivet nut') : 'screw'} M${fastener.thread}${fastener.sealed ? ', sealed' : ''}`
      : (through ?? use);
    const key = `${use}|${sizeKey(size)}|${what}`;
    const group = groups.get(key) ?? { names: new Set<string>(), size, holes: [] };
    group.names.add(use === 'hole' || what !== use ? what : name);
    group.holes.push(i);
    groups.set(key, group);
  });
  return [...groups.values()].map(({ names, ...group }, i) => ({
    ...group,
    name: [...names].join(', '),
    letter: letter(i),
  }));
};

type Hole = FlatPattern['holes'][number];

const sizeOf = ({ circle, contour }: Hole, isHexagon: boolean): HoleGroup['size'] => {
  if (circle) return { kind: 'round', diameter: 2 * circle.radius };
  // Of a hexagon, by its area: sqrt(3) / 2 of its square.
  if (isHexagon)
    return { kind: 'hexagon', acrossFlats: Math.sqrt((2 * Math.abs(areaOfContour(contour))) / Math.sqrt(3)) };
  const { min, max } = extentOfContour(contour);
  return { kind: 'box', width: max[0] - min[0], height: max[1] - min[1] };
};

/** Alike are those that read alike: to a hundredth of a millimetre across, to a tenth by sides. */
const sizeKey = (size: HoleGroup['size']): string => {
  if (size.kind === 'round') return size.diameter.toFixed(2);
  if (size.kind === 'hexagon') return `hexagon ${size.acrossFlats.toFixed(2)}`;
  return `${size.width.toFixed(1)} ${size.height.toFixed(1)}`;
};

/** Of its box: where it is measured to. */
export const middleOfHole = ({ contour }: Hole): Vec2 => {
  const { min, max } = extentOfContour(contour);
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2];
};

const letter = (index: number): string =>
  (index < 26 ? '' : letter(Math.floor(index / 26) - 1)) + String.fromCharCode(65 + (index % 26));
