/** Parts folded from their written drawings alone, with true radii, and measured against the tub as it was stated. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dxfFiles } from '../../../../src/analysis/export/flat/flat-files.js';
import { analyseText } from '../../../support/analyse-text.js';
import { casesOf } from '../../../support/cases.js';
import { readDxf } from '../../../support/oracles/dxf-reader.js';
import { foldDrawing, type FoldedDrawing, type P3 } from '../../../support/oracles/fold-drawing.js';

const LONG = 200;
const DEEP = 150;

interface Corner {
  readonly degrees: number;
  readonly thickness: number;
  readonly radius: number;
  readonly inset: number;
}

/** A base, y to the back, and a wall that rises from its front edge; tabs of the base go around the wall. */
const cornerText = ({ degrees, thickness, radius, inset }: Corner): string => `
units mm
tub "corner"
sheet skin = stainless thickness ${thickness} radius ${radius}
panel base of skin = (0, 0, 0) (${LONG}, 0, 0) (${LONG}, ${DEEP}, 0) (0, ${DEEP}, 0)
panel wall of skin = (0, 0, 0) (${LONG}, 0, 0) (${LONG}, ${DEEP} * cos(${degrees} deg), ${DEEP} * sin(${degrees} deg)) (0, ${DEEP} * cos(${degrees} deg), ${DEEP} * sin(${degrees} deg))
marks on dry side
seam base wall { tabs on base 20 wide ${3 * radius + 4 * thickness + 15} deep every 60 inset ${inset} weld tig }
`;

const drawingOf = (text: string, name: string): Promise<FoldedDrawing> => {
  const file = [...dxfFiles(analyseText(text).stages)].find((each) => each.name.endsWith(`-${name}.dxf`));
  return foldDrawing(String(file!.content));
};

/** The base's own piece lies as drawn: from the drawing's plane to the tub by its rim, the one edge as long as the base. */
const placeBase = ({ outline, thickness }: FoldedDrawing): ((point: P3) => P3) => {
  const i = outline.findIndex((p, k) => {
    const q = outline[(k + 1) % outline.length];
    return Math.abs(Math.hypot(q[0] - p[0], q[1] - p[1]) - LONG) < 1e-3;
  });
  const [p, q] = [outline[i], outline[(i + 1) % outline.length]];
  // Seen from the dry side and run counter-clockwise, the rim goes from x = 0 to x = LONG.
  const along = [(q[0] - p[0]) / LONG, (q[1] - p[1]) / LONG];
  return ([x, y, z]) => {
    const [dx, dy] = [x - p[0], y - p[1]];
    return [dx * along[0] + dy * along[1], DEEP - (dy * along[0] - dx * along[1]), -z - thickness];
  };
};

describe('tabs of one piece, folded from the drawing', () => {
  const between = (min: number, max: number): fc.Arbitrary<number> =>
    fc.double({ min, max, noNaN: true }).map((value) => Math.round(value * 100) / 100);
  const corner = fc.record({
    degrees: fc.integer({ min: 60, max: 150 }),
    thickness: between(0.6, 5),
    radius: between(0.5, 10),
    inset: fc.constantFrom(0, 0, 0.4, 0.8),
  });

  it('lie on the dry face of the panel they hold, less their inset', async () => {
    await fc.assert(
      fc.asyncProperty(corner, async (given) => {
        const folded = await drawingOf(cornerText(given), 'base');
        const place = placeBase(folded);
        const angle = (given.degrees * Math.PI) / 180;
        // Out of the wall's dry face, T away from the plane through the corner.
        const outward = [0, -Math.sin(angle), Math.cos(angle)];
        const tabs = folded.pieces.filter(({ bends }) => bends.length === 1);
        expect(tabs.length).toBeGreaterThan(0);
        for (const tab of tabs) {
          for (const point of tab.rings.flat()) {
            const [, y, z] = place(tab.wet(point));
            const off = y * outward[1] + z * outward[2] - given.thickness;
            expect(off).toBeCloseTo(-given.inset * Math.sin(angle), 2);
          }
        }
      }),
      { seed: 41, numRuns: casesOf(5) },
    );
  });
});

describe('funnels of one piece with tabs', () => {
  const size = (min: number, max: number): fc.Arbitrary<number> =>
    fc.double({ min, max, noNaN: true }).map((value) => Math.round(value * 10) / 10);
  const tabs = fc.record({ wide: size(10, 25), deep: size(12, 40), every: size(25, 60) });
  const funnel = fc.record({
    top: fc.tuple(size(150, 400), size(150, 400)),
    bottom: fc.tuple(size(20, 60), size(20, 60)),
    at: fc.tuple(size(20, 80), size(20, 80)),
    high: size(60, 300),
    thickness: size(0.8, 2),
    radius: size(0.5, 3),
    tabs: fc.array(tabs, { minLength: 5, maxLength: 5 }),
    isHood: fc.boolean(),
  });

  it('are written as outlines that a strict reader takes', () => {
    let crowded = 0;
    fc.assert(
      fc.property(
        funnel,
        ({ top: [W, D], bottom: [w, d], at: [x, y], high, thickness, radius, tabs: rows, isHood }) => {
          const [up, down] = isHood ? [0, high] : [high, 0];
          const row = (i: number, on: string): string =>
            `{ tabs on ${on} ${rows[i].wide} wide ${rows[i].deep} deep every ${rows[i].every} weld tig }`;
          const { stages, findings } = analyseText(`
units mm
tub "funnel"
sheet skin = aluminium thickness ${thickness} radius ${radius}
point A = (0, 0, ${up})    point B = (${W}, 0, ${up})   point C = (${W}, ${D}, ${up})   point D = (0, ${D}, ${up})
point E = (${x}, ${y}, ${down})  point F = (${x + w}, ${y}, ${down})  point G = (${x + w}, ${y + d}, ${down})  point H = (${x}, ${y + d}, ${down})
panel front of skin = A B F E
panel right of skin = B C G F
panel back of skin = C D H G
panel left of skin = D A E H
panel bottom of skin = E F G H
bend front right
bend right back
bend back left
seam left front ${row(0, 'left')}
seam bottom front ${row(1, 'front')}
seam bottom right ${row(2, 'right')}
seam bottom back ${row(3, 'back')}
seam bottom left ${row(4, 'left')}
`);
          if (findings.some(({ code }) => code === 'join/tabs-collide')) crowded++;
          if (findings.some(({ code }) => code === 'flat/overlaps-itself')) return;
          for (const { content } of dxfFiles(stages)) expect(() => readDxf(String(content))).not.toThrow();
        },
      ),
      { seed: 42, numRuns: casesOf(10) },
    );
    expect(crowded).toBeGreaterThan(0);
  });
});
