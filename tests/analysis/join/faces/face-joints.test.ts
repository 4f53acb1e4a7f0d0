/** Faces bolted on one another: where they lie, one hole in each, and the template of what stands there. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { templatesOf } from '../../../../src/analysis/export/flat/template.js';
import { toSpace } from '../../../../src/analysis/geometry/frame.js';
import { findingsOf } from '../../../../src/analysis/rules/run.js';
import { reportFaces } from '../../../../src/analysis/report/joining/faces.js';
import { createStages, type Stages } from '../../../../src/analysis/stages/stages.js';
import { analyseText, codesOf } from '../../../support/analyse-text.js';

const samples = join(import.meta.dirname, '../../../../samples');
const read = (name: string): string => readFileSync(join(samples, name), 'utf8');
const hung = createStages(
  analyseText(read('under-deck-rinse-tub.tub'), { files: { 'shop.tub': read('shop.tub') }, rules: [] }).tub,
);

const railOf = (z: string, seam: string): Stages =>
  createStages(
    analyseText(
      `units mm
sheet skin = stainless thickness 1.2 radius 1.2
existing bench {
    sheet plate = steel thickness 2
    panel board of plate metal up = (-50, -50, 100) (250, -50, 100) (250, 150, 100) (-50, 150, 100)
}
panel rail of skin = (0, 0, ${z}) (200, 0, ${z}) (200, 30, ${z}) (0, 30, ${z})
seam rail bench.board { ${seam} }
`,
      { rules: [] },
    ).tub,
  );

describe('a tub hung under a deck', () => {
  // By hand: 3 mm pressed by 30 % leave 2.1 mm.
  it('hangs a pressed gasket below it', () => {
    for (const row of reportFaces(hung)) {
      expect(row.apart_mm).toBeCloseTo(2.1, 6);
      expect(row.needed_mm).toBeCloseTo(2.1, 6);
    }
  });

  it('has the holes of its template where those of its rim are', () => {
    const [template] = templatesOf(hung).filter(({ name }) => name === 'stall.deck');
    expect(template.hung).toBe('from below');
    const rims = hung
      .folded()
      .flatMap((part) =>
        (part?.plates ?? []).flatMap(({ frame, name, holes }) =>
          name.startsWith('rail')
            ? holes.map((hole) => toSpace(frame, [(hole[0].x + hole[1].x) / 2, (hole[0].y + hole[1].y) / 2]))
            : [],
        ),
      );
    expect(rims).toHaveLength(28);
    expect(template.bolts).toHaveLength(28);
    const spans = (points: readonly (readonly number[])[]): number[] =>
      points
        .flatMap((a, i) => points.slice(i + 1).map((b) => Math.hypot(a[0] - b[0], a[1] - b[1])))
        .sort((a, b) => a - b);
    const [made, drawn] = [spans(rims), spans(template.bolts.map(({ center }) => center))];
    made.forEach((span, i) => expect(drawn[i]).toBeCloseTo(span, 6));
  });

  it('takes no room of the deck, nor do its screws of the tub', () => {
    expect(hung.sharedRoom()).toEqual([]);
  });
});

describe('a rail under a bench', () => {
  const codes = (stages: Stages): string[] =>
    findingsOf(stages)
      .map(({ code }) => code)
      .filter((code) => code.startsWith('join/'));

  // By hand: 200 mm in four shares of 50, the first 25 from the end, 15 from either side.
  it('has its screws along its middle', () => {
    const { places } = railOf('100', 'bolted M6 every 50').joints().faces[0];
    expect(places.map(({ point: [x, y] }) => [x, y]).sort((a, b) => a[0] - b[0])).toEqual([
      [25, 15],
      [75, 15],
      [125, 15],
      [175, 15],
    ]);
  });

  it('is told the height that its gasket asks for', () => {
    const stages = railOf('99', 'bolted M6 every 50 gasket 3 pressed 30 %');
    const finding = findingsOf(stages).find(({ code }) => code === 'join/faces-apart');
    expect(finding?.message).toContain('stands 1 mm from');
    expect(finding?.related[0].message).toBe('Move it 1.1 mm down: its face to z 97.9');
  });

  it('lies metal on metal from above as from below', () => {
    expect(codes(railOf('100', 'bolted M6 every 50'))).toEqual([]);
    // Its dry side down on the bench's upper face, at 102.
    expect(codes(railOf('103.2', 'bolted M6 every 50'))).toEqual([]);
  });

  // By hand: its dry side at 398.8, the upper face of the bench at 102.
  it('far above the bench is told how far', () => {
    const stages = railOf('400', 'bolted M6 every 50');
    expect(findingsOf(stages).find(({ code }) => code === 'join/faces-apart')?.message).toContain('296.8 mm');
  });
});

it('judges nothing of a plate of which nobody says on which side of its face its metal lies', () => {
  const text = (metal: string): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.2
existing bench { panel board of skin ${metal} = (-50, -50, 100) (250, -50, 100) (250, 150, 100) (-50, 150, 100) }
panel rail of skin = (0, 0, 90) (200, 0, 90) (200, 30, 90) (0, 30, 90)
seam rail bench.board { bolted M6 every 50 }
`;
  const codes = (metal: string): readonly string[] => codesOf(analyseText(text(metal)));
  expect(codes('metal up')).toContain('join/faces-apart');
  expect(codes('')).not.toContain('join/faces-apart');
  expect(codes('')).toContain('shape/metal-not-stated');
});

it('lets screws through a plate that a file has too, and through nothing else of it', () => {
  const machine = (more: string): string => `units mm
sheet plate = steel thickness 3
existing frame {
    panel deck of plate metal up = (0, 0, 300) (680, 0, 300) (680, 560, 300) (0, 560, 300)
    ${more}
}
`;
  const text = `units mm
sheet skin = stainless thickness 1.5 radius 1.5
sheet plate = steel thickness 3
existing machine from "machine.tub" at (-60, -40, 0)
existing top { panel deck of plate metal up = (-60, -40, 300) (620, -40, 300) (620, 520, 300) (-60, 520, 300) }
panel rail of skin = (0, 0, 297.9) (200, 0, 297.9) (200, 30, 297.9) (0, 30, 297.9)
seam rail top.deck { bolted M6 every 50 gasket 3 pressed 30 % }
`;
  const codes = (more: string): readonly string[] =>
    codesOf(analyseText(text, { files: { 'machine.tub': machine(more) } }));
  expect(codes('')).toEqual([]);
  const rib = 'panel rib of plate metal front = (60, 55, 303) (260, 55, 303) (260, 55, 340) (60, 55, 340)';
  expect(codes(rib)).toContain('shape/metal-in-metal');
});
