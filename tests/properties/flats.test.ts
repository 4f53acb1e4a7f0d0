import fc from 'fast-check';
import ManifoldModule from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { areaOfContour, flattenContour, lengthOfContour } from '../../src/analysis/geometry/contour.js';
import { areaVector, firstSelfCrossing } from '../../src/analysis/geometry/polygon.js';
import { distance2, lengthOf, type Vec2, type Vec3 } from '../../src/analysis/geometry/vec.js';
import type { FlatPattern } from '../../src/analysis/fold/flat-pattern.js';
import type { Tub } from '../../src/analysis/model/tub.js';
import { findingsOf } from '../../src/analysis/rules/run.js';
import { rules } from '../../src/analysis/rules/registry.js';
import { createStages } from '../../src/analysis/stages/stages.js';
import {
  arbitraryPart,
  arbitraryWildPart,
  mapTub,
  panelsOf,
  posed,
  real,
  sheetOf,
  toRad,
  tubFrom,
  type PartRecipe,
} from '../support/random/arbitrary-part.js';
import { arbitraryStrip, tubFromStrip } from '../support/random/arbitrary-strip.js';
import { casesOf } from '../support/cases.js';
import { starTub } from '../support/random/star.js';
import { levelOn } from '../support/oracles/meeting.js';
import { geometryOf } from '../support/oracles/geometry-of.js';
import { tubOf } from '../support/tub-of.js';

const upright = { turns: [0, 0, 0], shift: [0, 0, 0] } as const;

/** Outline as what a rigid motion of the plane leaves alone: each edge with its bulge and the turn to the next. */
const formOf = (flat: FlatPattern): number[][] => {
  const { outline } = flat;
  const n = outline.length;
  const at = (i: number): Vec2 => [outline[(i + n) % n].x, outline[(i + n) % n].y];
  return outline.map(({ bulge }, i) => {
    const [p, q, r] = [at(i), at(i + 1), at(i + 2)];
    const [a, b] = [Math.atan2(q[1] - p[1], q[0] - p[0]), Math.atan2(r[1] - q[1], r[0] - q[0])];
    return [distance2(p, q), bulge, Math.cos(b - a), Math.sin(b - a)];
  });
};

/** The same form seen from behind, run counter-clockwise again: edges the other way round, arcs and corners as they are. */
const mirroredForm = (form: readonly number[][]): number[][] => {
  const n = form.length;
  return form.map((_, j) => {
    const [length, bulge] = form[n - 1 - j];
    const [, , cosine, sine] = form[(2 * n - 2 - j) % n];
    return [length, bulge, cosine, sine];
  });
};

const isSameForm = (a: readonly number[][], b: readonly number[][], within: number): boolean => {
  // The direction of an edge of a few micrometres is known no better than its ends.
  const ofTurn = a.map(([length], i) => within * Math.max(1, 0.1 / Math.min(length, a[(i + 1) % a.length][0])));
  return (
    a.length === b.length &&
    a.some((_, shift) =>
      a.every((edge, i) =>
        edge.every((value, k) => Math.abs(value - b[(i + shift) % b.length][k]) <= (k < 2 ? within : ofTurn[i])),
      ),
    )
  );
};

const flatsOf = (tub: Tub): readonly FlatPattern[] => geometryOf(tub).flats.flatMap((flat) => flat ?? []);

describe('flats of random parts', () => {
  it('are covered by their plates and bend zones without rest, and each plate keeps its panel but for the bends', () => {
    fc.assert(
      fc.property(arbitraryPart(), (recipe) => {
        const tub = tubFrom(recipe);
        const { flats, shape } = geometryOf(tub);
        for (const flat of flats) {
          if (!flat) continue;
          const plates = flat.panels.reduce((sum, panel) => sum + areaOfContour(panel.region), 0);
          const zones = flat.bends.reduce(
            (sum, { allowance, tangents }) =>
              sum + (allowance * (distance2(...tangents[0]) + distance2(...tangents[1]))) / 2,
            0,
          );
          expect(plates + zones).toBeCloseTo(areaOfContour(flat.outline), 5);
          for (const panel of flat.panels) {
            const sharp = lengthOf(areaVector(tub.panels[panel.face!].corners)) / 2;
            const taken = shape.bends
              .filter((bend) => bend.faces.includes(panel.face!))
              .reduce(
                (sum, { setback, length, radius, thickness }) =>
                  sum + setback * length + 12 * (setback + radius + Math.max(thickness, 1.5)) ** 2,
                0,
              );
            const area = areaOfContour(panel.region);
            expect(area).toBeLessThan(sharp + taken);
            expect(area).toBeGreaterThan(sharp - taken);
          }
        }
      }),
      { seed: 11, numRuns: casesOf(40) },
    );
  });

  it('of strips between leaning sides are covered as well: by plates, and by zones with curved ends', () => {
    fc.assert(
      fc.property(arbitraryStrip({ lean: 0.5 }), (recipe) => {
        const { flats, folded } = geometryOf(tubFromStrip(recipe));
        flats.forEach((flat, i) => {
          if (!flat) return;
          const plates = flat.panels.reduce((sum, panel) => sum + areaOfContour(panel.region), 0);
          const zones = folded[i]!.rolls.reduce((sum, { bend, near, far }) => {
            const shares = Array.from({ length: 400 }, (_, k) => (k + 0.5) / 400);
            const length = shares.reduce((all, share) => all + levelOn(far, share) - levelOn(near, share), 0) / 400;
            return sum + length * flat.bends[bend].allowance;
          }, 0);
          expect(plates + zones).toBeCloseTo(areaOfContour(flat.outline), 3);
        });
      }),
      { seed: 15, numRuns: casesOf(12) },
    );
  });

  it('are the same wherever the tub stands and however it is turned', () => {
    fc.assert(
      fc.property(arbitraryPart(5), (recipe) => {
        const here = tubFrom({ ...recipe, pose: upright });
        const there = tubFrom({ ...recipe, pose: { turns: [0, 0, recipe.pose.turns[2]], shift: recipe.pose.shift } });
        const [a, b] = [flatsOf(here), flatsOf(there)];
        expect(b.map((flat) => flat.panels.map((panel) => panel.name))).toEqual(
          a.map((flat) => flat.panels.map((panel) => panel.name)),
        );
        a.forEach((flat, i) => expect(isSameForm(formOf(flat), formOf(b[i]), 1e-6)).toBe(true));
      }),
      { seed: 12, numRuns: casesOf(30) },
    );
  });

  it('of a mirrored tub are mirrored', () => {
    const mirror = ([x, y, z]: Vec3): Vec3 => [-x, y, z];
    fc.assert(
      fc.property(arbitraryPart(5), arbitraryStrip(), arbitraryStrip({ lean: 0.5 }), (recipe, strip, leaning) => {
        for (const tub of [tubFrom({ ...recipe, pose: upright }), tubFromStrip(strip), tubFromStrip(leaning)]) {
          const [a, b] = [flatsOf(tub), flatsOf(mapTub(tub, mirror))];
          expect(b).toHaveLength(a.length);
          a.forEach((flat, i) => {
            expect(isSameForm(mirroredForm(formOf(flat)), formOf(b[i]), 1e-6)).toBe(true);
            expect(lengthOfContour(b[i].outline)).toBeCloseTo(lengthOfContour(flat.outline), 6);
            const turns = (f: FlatPattern): string[] =>
              f.bends.map((bend) => `${bend.direction} ${bend.angle.toFixed(9)}`).sort();
            expect(turns(b[i])).toEqual(turns(flat));
          });
        }
      }),
      { seed: 13, numRuns: casesOf(15) },
    );
  });
});

describe('an independent polygon kernel', () => {
  let kernel: Awaited<ReturnType<typeof ManifoldModule>>;
  beforeAll(async () => {
    kernel = await ManifoldModule();
    kernel.setup();
  });

  it('finds a flat covering a place twice exactly where the check says so', () => {
    const counts = { overlaps: 0, clear: 0 };
    fc.assert(
      fc.property(fc.oneof(arbitraryPart(), arbitraryWildPart), (recipe) => {
        const [{ flat, faults }] = geometryOf(tubFrom(recipe)).unfolded;
        if (!flat) return;
        const outline = flattenContour(flat.outline, 0.001).map(([x, y]): [number, number] => [x, y]);
        const section = new kernel.CrossSection([outline], 'Positive');
        // Where two layers lie, the covered area is less than the area that the outline encloses.
        const twice = areaOfContour(flat.outline) - section.area();
        section.delete();
        const isSaid = faults.some((fault) => fault.kind === 'overlap');
        counts[isSaid ? 'overlaps' : 'clear']++;
        if (twice > 0.02 * lengthOfContour(flat.outline)) expect(isSaid).toBe(true);
        if (Math.abs(twice) < 1e-7) expect(isSaid).toBe(false);
      }),
      { seed: 14, numRuns: casesOf(100) },
    );
    expect(Math.min(counts.overlaps, counts.clear)).toBeGreaterThan(12);
  });

  it('finds no place covered twice in stars with a flange on every edge, whatever their reliefs run into', () => {
    const star = fc.record({
      tips: fc.integer({ min: 3, max: 12 }),
      waist: fc.oneof(fc.constant(1), real(0.4, 0.8)),
      trim: fc.oneof(fc.constant(0), real(0, 12)),
      thickness: real(0.6, 2),
      radius: real(0.5, 3),
      turn: real(toRad(20), toRad(120)),
      length: real(15, 60),
    });
    let laid = 0;
    fc.assert(
      fc.property(star, (recipe) => {
        const [{ flat, faults }] = geometryOf(starTub(recipe)).unfolded;
        if (faults.some(({ kind }) => kind === 'leg-too-short')) return;
        expect(faults).toEqual([]);
        laid++;
        const outline = flattenContour(flat!.outline, 0.001);
        expect(firstSelfCrossing(outline, 0)).toBeUndefined();
        const section = new kernel.CrossSection([outline.map(([x, y]): [number, number] => [x, y])], 'Positive');
        expect(areaOfContour(flat!.outline) - section.area()).toBeLessThan(1e-3);
        section.delete();
      }),
      { seed: 16, numRuns: casesOf(15) },
    );
    expect(laid).toBeGreaterThan(8);
  });
});

describe('verdicts', () => {
  /** Findings without their words and places: what was found, and the numbers. */
  const verdict = (tub: Tub, rename: (name: string) => string = (name) => name): string[] =>
    findingsOf(createStages(tub), { rules: rules.filter(({ code }) => /^(shape|bend|flat|sheet)\//.test(code)) })
      .map(({ code, at, about, measure }) =>
        [
          code,
          at,
          about.map((name) => name.split(' ').map(rename).join(' ')).join(),
          measure ? `${measure.has.toFixed(4)} ${measure.needs.toFixed(4)}` : '',
        ].join(' '),
      )
      .sort();

  const faulty = (recipe: PartRecipe): Tub =>
    tubFrom({
      ...recipe,
      radius: 6,
      pose: upright,
      sprouts: recipe.sprouts.map((s) => ({ ...s, length: s.length / 6 })),
    });

  it('do not change when the tub is moved or its names are', () => {
    let found = 0;
    fc.assert(
      fc.property(arbitraryWildPart, (recipe) => {
        const tub = faulty(recipe);
        const before = verdict(tub);
        found += before.length;
        expect(
          verdict(mapTub(tub, (p) => posed(p, { turns: [0, 0, recipe.pose.turns[2]], shift: recipe.pose.shift }))),
        ).toEqual(before);
        const renamed: Tub = {
          ...tub,
          panels: tub.panels.map((panel) => ({ ...panel, name: `x${panel.name}` })),
          bends: tub.bends.map((bend) => ({
            ...bend,
            name: bend.name
              .split(' ')
              .map((name) => `x${name}`)
              .join(' '),
          })),
        };
        expect(verdict(renamed, (name) => name.replace(/^x/, ''))).toEqual(before);
      }),
      { seed: 15, numRuns: casesOf(25) },
    );
    expect(found).toBeGreaterThan(20);
  });

  it('do not depend on which way round the corners of a panel are listed, nor with which it begins', () => {
    fc.assert(
      fc.property(arbitraryPart(5), fc.array(fc.nat(20), { minLength: 8, maxLength: 8 }), (recipe, picks) => {
        const { panels, bends } = panelsOf(recipe);
        const shuffled = Object.fromEntries(
          Object.entries(panels).map(([name, corners], i) => {
            const start = picks[i % picks.length] % corners.length;
            const turned = [...corners.slice(start), ...corners.slice(0, start)];
            return [name, picks[i % picks.length] % 2 === 0 ? turned : turned.reverse()];
          }),
        );
        const sheets = [sheetOf(recipe.thickness, recipe.radius)];
        const [a, b] = [flatsOf(tubOf({ sheets, panels, bends })), flatsOf(tubOf({ sheets, panels: shuffled, bends }))];
        a.forEach((flat, i) => expect(isSameForm(formOf(flat), formOf(b[i]), 1e-6)).toBe(true));
      }),
      { seed: 16, numRuns: casesOf(25) },
    );
  });
});
