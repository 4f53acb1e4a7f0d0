import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROUND_OFF } from '../../../src/analysis/geometry/tolerance.js';
import { distance, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import type { Leak } from '../../../src/analysis/seal/leak.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';
import { arbitraryTub, pan } from '../../support/random/arbitrary-tub.js';
import { sealed, withoutBend, withoutSeam } from '../../support/tubs/sealed.js';
import { stripAndSides, zigzag } from '../../support/tubs/strip-and-sides.js';
import { casesOf } from '../../support/cases.js';

const leaksOf = (tub: Tub): readonly Leak[] => createStages(tub).watertight().leaks;

const isBetween = (leak: Leak, a: readonly number[], b: readonly number[]): boolean =>
  (leak.kind === 'unjoined' || (leak.kind === 'near' && leak.gap < ROUND_OFF)) &&
  leak.faces.some((face) => a.includes(face)) &&
  leak.faces.some((face) => b.includes(face));

/** What is dry, or comes out, holds no water. */
const isOfTub = ({ panels, groups }: Tub, panel: number): boolean => {
  const { group } = panels[panel];
  return group === undefined || groups?.[group].role === 'part';
};

/** Every seam and bend of the tub taken away in turn: a leak between its two panels, over the length it had. */
const expectLeaksWithout = (tub: Tub): void => {
  const { faces, bends } = createStages(tub).shape();
  const before = leaksOf(tub);
  tub.seams.forEach((seam, i) => {
    const [a, b] = seam.members.map((member) => member.panels);
    if (![...a, ...b].every((panel) => isOfTub(tub, panel))) return;
    const length =
      sum(
        faces
          .flatMap((face) => face.stretches.flat())
          .filter((s) => s.seams.includes(i))
          // Both edges of a seam are named, but only the one that stands on a face.
          .map((s) => distance(s.start, s.end) * (s.feet ? 2 : 1)),
      ) / 2;
    const found = leaksOf(withoutSeam(tub, i)).filter((leak) => isBetween(leak, a, b));
    expect(found.length, seam.name).toBeGreaterThan(0);
    expect(sum(found.map((leak) => leak.length)), seam.name).toBeCloseTo(length, 4);
  });
  tub.bends.forEach((stated, i) => {
    const bend = bends.find((each) => each.name === stated.name && each.at === stated.at);
    if (!bend || !stated.panels.every((panel) => isOfTub(tub, panel))) return;
    const found = leaksOf(withoutBend(tub, i)).filter((leak) =>
      isBetween(leak, [stated.panels[0]], [stated.panels[1]]),
    );
    expect(found.length, stated.name).toBeGreaterThan(0);
    expect(sum(found.map((leak) => leak.length)), stated.name).toBeCloseTo(bend.length, 4);
  });
  expect(leaksOf(tub)).toEqual(before);
};

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

describe('random closed tubs', () => {
  it('have no leak when every edge is joined', () => {
    fc.assert(
      fc.property(arbitraryTub, ({ tub }) => {
        expect(leaksOf(sealed(tub))).toEqual([]);
      }),
      { seed: 5, numRuns: casesOf(15) },
    );
  });

  it('leak at the right edge when any one seam or bend is left out, and no more once it is back', () => {
    fc.assert(
      fc.property(arbitraryTub, ({ tub }) => expectLeaksWithout(sealed(tub))),
      { seed: 6, numRuns: casesOf(4, 0.1) },
    );
  });

  it('have each stretch in the account once, and both sides of a joint alike', () => {
    fc.assert(
      fc.property(arbitraryTub, ({ tub }) => {
        const stages = createStages(sealed(tub));
        const { entries, lengths } = stages.watertight().account;
        const stretches = stages.shape().faces.flatMap((face) => face.stretches.flat());
        expect(entries.map((entry) => entry.stretch)).toEqual(stretches);
        const around = sum(
          stages
            .shape()
            .faces.flatMap((face) =>
              face.corners.map((corner, i) => distance(corner, face.corners[(i + 1) % face.corners.length])),
            ),
        );
        expect(sum(Object.values(lengths))).toBeCloseTo(around, 6);
        expect(lengths.unjoined + lengths.near + lengths.uncovered).toBe(0);
        expect(lengths.bend).toBeCloseTo(2 * sum(stages.shape().bends.map((bend) => bend.length)), 6);
      }),
      { seed: 8, numRuns: casesOf(12) },
    );
  });
});

const samples = join(import.meta.dirname, '../../../samples');

describe('samples', () => {
  const files = readdirSync(samples).filter((name) => name.endsWith('.tub'));
  // The files of faults hold no whole tub: their joints are broken on purpose.
  const whole = files.filter((name) => !name.startsWith('faults'));
  // One in three, all in verify.
  it.each(whole.filter((_, i) => i % 3 === 0 || casesOf(0) > 0))(
    '%s leaks at the right edge without any one of its seams and bends',
    (name) => {
      const texts = Object.fromEntries(files.map((file) => [file, readFileSync(join(samples, file), 'utf8')]));
      const { tub } = analyseText(texts[name], { files: texts });
      if (!tub) throw new Error(`${name} gives no tub`);
      expectLeaksWithout(tub);
    },
  );
});

describe('kinds of leaks', () => {
  const box = pan({ wide: 200, deep: 150, rim: 80 }).tub;

  it('a level pan is flooded to its rim everywhere', () => {
    const { levelAt } = createStages(sealed(box)).water();
    expect(levelAt(0, [100, 75, 0])).toBe(80);
    expect(levelAt(1, [100, 0, 30])).toBe(80);
    expect(levelAt(1, [100, 0, 80])).toBe(80);
  });

  it('a corner seam left out is a leak from the floor up', () => {
    const tub = sealed(box);
    const corner = tub.seams.findIndex((seam) => seam.name === 'wall1 wall2');
    const { leaks, lowest } = createStages(withoutSeam(tub, corner)).watertight();
    expect(leaks).toEqual([
      expect.objectContaining({ kind: 'unjoined', height: 0, length: 80, flood: 80, isUnderWater: true }),
    ]);
    expect(lowest).toBe(leaks[0]);
  });

  it('an edge that two shorter panels cover is cut where they meet, and each part is judged for itself', () => {
    const [floor, , ...rest] = box.panels;
    const wall = (name: string, from: number, to: number) => ({
      ...box.panels[1],
      name,
      corners: [
        [from, 0, 0],
        [to, 0, 0],
        [to, 0, 80],
        [from, 0, 80],
      ] as Vec3[],
    });
    const tub = sealed({ ...box, panels: [floor, wall('west', 0, 120), ...rest, wall('east', 120, 200)] });
    expect(leaksOf(tub)).toEqual([]);
    const floorEdge = createStages(tub)
      .shape()
      .faces[0].stretches.find((list) => list.length === 2);
    expect(floorEdge?.map((stretch) => distance(stretch.start, stretch.end)).sort()).toEqual([120, 80]);
    const joint = tub.seams.findIndex((seam) => seam.name === 'west east' || seam.name === 'east west');
    expect(leaksOf(withoutSeam(tub, joint)).map(({ kind, length }) => [kind, length])).toEqual([['unjoined', 80]]);
  });

  it.each([
    [0.5, 'near'],
    [5.9, 'near'],
  ])('a wall that stands %s mm off is nearly met, with the distance', (off, kind) => {
    const panels = box.panels.map((panel, i) =>
      i === 1 ? { ...panel, corners: panel.corners.map(([x, y, z]): Vec3 => [x, y - off, z]) } : panel,
    );
    const leaks = leaksOf(sealed({ ...box, panels }));
    expect(leaks.map((leak) => leak.kind)).toContain(kind);
    for (const leak of leaks.filter((each) => each.kind === 'near')) expect(leak.gap).toBeCloseTo(off, 9);
  });

  it('a wall a tenth of the point tolerance off is joined', () => {
    const panels = box.panels.map((panel, i) =>
      i === 1 ? { ...panel, corners: panel.corners.map(([x, y, z]): Vec3 => [x, y - 1e-4, z]) } : panel,
    );
    expect(leaksOf(sealed({ ...box, panels }))).toEqual([]);
  });

  it('a wall that stands on the floor, away from its edges, butts on sheet', () => {
    const panels = box.panels.map((panel, i) =>
      i === 1 ? { ...panel, corners: panel.corners.map(([x, y, z]): Vec3 => [x, y + 20, z]) } : panel,
    );
    const kinds = leaksOf(sealed({ ...box, panels })).map((leak) => [leak.kind, leak.gap]);
    expect(kinds).toContainEqual(['near', 0]);
  });

  it('what is joined in the text but not tight is open: clips alone', () => {
    const tub = stripAndSides(zigzag, 300, {
      weld: undefined,
      tabs: { at: 0, on: 'loose', wide: 18, deep: 14, every: 70, inset: 0, margin: undefined },
      spots: 1,
    });
    expect(leaksOf(tub).map((leak) => leak.kind)).toEqual(['open-seam', 'open-seam']);
    expect(createStages(tub).watertight().lowest?.height).toBe(52);
  });

  it('moving or turning a tub about the vertical changes no verdict', () => {
    const tub = withoutSeam(stripAndSides(zigzag, 300), 0);
    const moved = (p: Vec3): Vec3 => [-p[1] + 1234.5, p[0] - 99, p[2] + 17];
    const elsewhere = { ...tub, panels: tub.panels.map((panel) => ({ ...panel, corners: panel.corners.map(moved) })) };
    const seen = (leaks: readonly Leak[]) =>
      leaks.map(({ kind, length, gap, faces, height }) => ({
        kind,
        length: length.toFixed(6),
        gap: gap.toFixed(6),
        faces,
        height: height.toFixed(6),
      }));
    expect(seen(leaksOf(elsewhere).map((leak) => ({ ...leak, height: leak.height - 17 })))).toEqual(seen(leaksOf(tub)));
  });
});

describe('a rail that the end of a wall goes by', () => {
  /** A pan whose back leans out, so that the walls beside it end higher than its rail, with a hole in one of them. */
  const panWith = (rail: string): Tub =>
    analyseText(`units mm
sheet skin = stainless 18 ga radius 1.6
point A = (0, 0, 0)
point B = (300, 0, 0)
point C = (300, 200, 6)
point E = (0, 200, 6)
panel base of skin = A B C E
flange f1 on base[A B] turned up plumb by 60 mitred
flange f2 on base[B C] turned up plumb by 60 mitred
flange f3 on base[C E] turned up 75 deg by 60 mitred
flange f4 on base[E A] turned up plumb by 60 mitred
${rail}
hole in f2 at (300, 100, 33) diameter 12
seam f1 f2 { weld tig }
seam f2 f3 { weld tig }
seam f3 f4 { weld tig }
seam f4 f1 { weld tig }
outlet d in base at center(base) + (0, -80, -80*6/200) diameter 20 { lip 12 }`).tub;

  it.each([
    '',
    'flange rail on f3.end turned out level by 22',
    'flange rail on f3.end turned out level by 22 trim 5 5',
    'flange rail on f3.end turned out level by 22 mitred',
    'flange rail on f3.end turned out 40 deg by 22',
    'flange rail on f3.end turned in 40 deg by 22',
  ])('makes no divider of it: the hole lets out what stands over its foot ("%s")', (rail) => {
    const { lowest } = createStages(panWith(rail)).watertight();
    expect([lowest?.kind, lowest?.point[2], lowest?.flood]).toEqual([
      'opening',
      expect.closeTo(27, 6),
      expect.closeTo(60, 1),
    ]);
  });
});
