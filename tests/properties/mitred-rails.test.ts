/** Level rails of leaning walls, mitred at their corner: as exported bodies they touch and take no room from one another. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { metalInMetal } from '../../src/analysis/rules/shape/metal-in-metal.js';
import { analyseText } from '../support/analyse-text.js';
import { casesOf } from '../support/cases.js';
import { meshBodies } from '../support/oracles/mesh-bodies.js';
import { real } from '../support/random/arbitrary-part.js';

let bodies: Awaited<ReturnType<typeof meshBodies>>;
beforeAll(async () => {
  bodies = await meshBodies();
});

const HIGH = 120;
const point = (...at: readonly number[]): string => `(${at.map((x) => x.toFixed(6)).join(', ')})`;

/** Two walls that meet from a corner of the rim to a foot inside it, each with a rail turned out level. */
const someRails = fc.record({
  /** Of the rim in plan, deg. */
  corner: real(65, 150),
  foot: fc.tuple(real(0.1, 0.9), real(8, 90)),
  thickness: real(0.8, 3),
  radius: real(0.8, 5),
  rail: real(18, 50),
});

type Rails = typeof someRails extends fc.Arbitrary<infer T> ? T : never;

const textOf = ({ corner, foot: [share, deep], thickness, radius, rail }: Rails): string => {
  const headed = (deg: number, far: number): [number, number] => [
    far * Math.cos((deg * Math.PI) / 180),
    far * Math.sin((deg * Math.PI) / 180),
  ];
  const turn = 180 - corner;
  // Inside the corner: between the directions from it along both edges.
  const [x, y] = headed(turn + share * corner, deep);
  const [dx, dy] = headed(turn, 200);
  const [a, b, c] = [
    [-300, 0, HIGH],
    [0, 0, HIGH],
    [...headed(turn, 300), HIGH],
  ];
  const [e, f, g] = [
    [x - 200, y, 0],
    [x, y, 0],
    [x + dx, y + dy, 0],
  ];
  return `units mm
sheet skin = stainless thickness ${thickness.toFixed(3)} radius ${radius.toFixed(3)}
point A = ${point(...a)}  point B = ${point(...b)}  point C = ${point(...c)}
point E = ${point(...e)}  point F = ${point(...f)}  point G = ${point(...g)}
panel left of skin = A B F E
panel right of skin = B C G F
seam left right { weld tig }
flange leftRail on left[A B] turned out level by ${rail.toFixed(3)} mitred
flange rightRail on right[B C] turned out level by ${rail.toFixed(3)} mitred
seam leftRail rightRail { weld tig }
`;
};

describe('mitred rails', () => {
  it('of walls that lean by any angles touch, and no more', () => {
    let made = 0;
    fc.assert(
      fc.property(someRails, (rails) => {
        const { stages, findings } = analyseText(textOf(rails), { rules: [metalInMetal], effort: 'full' });
        const folded = stages.folded();
        if (folded.length !== 2 || folded.some((part) => !part)) return;
        made++;
        const [left, right] = folded.map((part) => bodies.bodyOf(part!));
        expect(findings.map(({ message }) => message)).toEqual([]);
        expect(bodies.commonOf(left, right)).toBeLessThan(0.002);
      }),
      { numRuns: casesOf(8, 0.7), seed: 4 },
    );
    expect(made).toBeGreaterThan(4);
  });
});
