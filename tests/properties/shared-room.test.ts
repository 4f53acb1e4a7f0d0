/** Metal in metal as it is told, against meshes of an independent kernel. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { FoldedPart } from '../../src/analysis/fold/flat-pattern.js';
import { add, distance, lerp, scale, subtract, unit, type Vec3 } from '../../src/analysis/geometry/vec.js';
import type { Tub } from '../../src/analysis/model/tub.js';
import { metalOfPart, type Metal, type RoomTaker } from '../../src/analysis/solid/room/room-takers.js';
import { createStages, type Stages } from '../../src/analysis/stages/stages.js';
import { analyseText } from '../support/analyse-text.js';
import {
  arbitraryPart,
  arbitraryPose,
  type HemRecipe,
  arbitraryWildPart,
  panelsOf,
  posed,
  real,
  tubFrom,
} from '../support/random/arbitrary-part.js';
import { casesOf } from '../support/cases.js';
import { seededUniform } from '../support/random/random.js';
import { solidKernel } from '../support/oracles/solid-kernel.js';
import { rimmedText } from '../support/tubs/rimmed-tub.js';

/** mm. From where a plate would stand in the middle of a bend's sharp edge. */
const off = real(-6, 6);

/** mm. As deep as metal may lie in metal before it is told. */
const LEAST = 0.1;

it('panels, bends and hems of random parts share room where they are told to, and nowhere else', async () => {
  const bodies = await solidKernel();
  const told = { panel: 0, bend: 0, hem: 0 };
  let clear = 0;
  for (const tub of fc.sample(probed, { numRuns: casesOf(40), seed: 3 })) {
    const stages = createStages(tub);
    // What lies over itself in the flat is told as that.
    if (stages.unfolded().some(({ faults }) => faults.length > 0)) continue;
    const pieces = piecesOf(stages);
    const shared = new Set(stages.sharedRoom().map(({ takers }) => keyOf(...takers)));
    for (const [i, a] of pieces.entries()) {
      for (const b of pieces.slice(i + 1)) {
        const isTold = shared.has(keyOf(a.taker, b.taker));
        if (!isTold && (!boxesMeet(a, b) || meetAlongEdge(stages, a, b) || arePanelsTold(shared, a, b))) continue;
        const [one, other] = [bodies.solidOf(a.body), bodies.solidOf(b.body)];
        const both = one.intersect(other);
        // A corner that dips in by a tenth of a millimetre takes next to nothing.
        if (isTold) expect(both.volume()).toBeGreaterThan(1e-3);
        else expect(both.volume()).toBeLessThan(1e-3 + (LEAST * both.surfaceArea()) / 2);
        for (const solid of [one, other, both]) solid.delete();
        if (!isTold) clear++;
        else for (const { kind } of [a.taker, b.taker]) told[kind as keyof typeof told]++;
      }
    }
  }
  expect(Math.min(told.panel, told.bend, clear)).toBeGreaterThan(5);
  expect(told.hem).toBeGreaterThan(0);
});

/** A part with wide bends and hems, and small plates that stand about them. */
const probed: fc.Arbitrary<Tub> = fc
  .record({
    recipe: fc.oneof(arbitraryPart(4), arbitraryWildPart),
    radius: real(4, 12),
    probes: fc.array(
      fc.record({
        on: real(0, 0.999),
        at: real(0.2, 0.8),
        pose: fc.record({ turns: arbitraryPose.map(({ turns }) => turns), shift: fc.tuple(off, off, off) }),
        size: fc.tuple(real(1, 6), real(1, 6)),
      }),
      { minLength: 6, maxLength: 6 },
    ),
  })
  .map(({ recipe, radius, probes }) => {
    const hems = recipe.hems.map(({ on }): HemRecipe => ({
      on,
      hem: { kind: 'open', length: 25, gap: 8, turned: 'dry' },
    }));
    const tub = tubFrom({ ...recipe, radius, hems });
    const { panels, bends, rims } = panelsOf({ ...recipe, hems });
    const edges = rims.map(({ panel, edge }) => panels[panel].slice(edge).concat(panels[panel]).slice(0, 2));
    // Few edges are hemmed: these as often as all bends.
    const lines = [
      ...bends.map(([, child]) => panels[child]),
      ...bends.flatMap((_, i) => edges.slice(i, i + 1)),
      ...edges,
    ];
    return probes.reduce((all: Tub, { on, at, pose, size: [wide, deep] }, i) => {
      const [start, end] = lines[Math.floor(on * lines.length)];
      const middle = posed(lerp(start, end, at), recipe.pose);
      const corners = [[-wide, -deep, 0], [wide, -deep, 0], [wide, deep, 0], [-wide, deep, 0]] as const; // prettier-ignore
      const placed = corners.map((corner) => add(posed(corner, pose), middle));
      const panel = { ...all.panels[0], name: `probe${i}`, at: 5000 + i, corners: placed };
      return { ...all, panels: [...all.panels, panel] };
    }, tub);
  });

interface Piece extends Pick<Metal, 'taker' | 'faces'> {
  readonly body: FoldedPart;
  readonly boxes: readonly Metal['body'][];
}

/** The roll of a hem and its lip are one. */
const piecesOf = (stages: Stages): readonly Piece[] =>
  stages.folded().flatMap((part, i) => {
    if (!part) return [];
    const flat = stages.flats()[i]!;
    const all = metalOfPart(part, flat);
    const keys = [...new Set(all.map(({ taker }) => nameOf(taker)))];
    return keys.map((key): Piece => {
      const mine = all.filter(({ taker }) => nameOf(taker) === key);
      const [{ taker, faces }] = mine;
      const isHem = (bend: number): boolean => taker.kind === 'hem' && flat.bends[bend].rim === taker.rim;
      return {
        taker,
        faces,
        boxes: mine.map(({ body }) => body),
        body: {
          ...part,
          plates: part.plates.filter(({ face, panel }) =>
            taker.kind === 'panel'
              ? face === taker.face
              : flat.bends.some(({ child }, bend) => child === panel && isHem(bend)),
          ),
          rolls: part.rolls.filter(
            ({ bend }) => isHem(bend) || (taker.kind === 'bend' && flat.bends[bend].bend === taker.bend),
          ),
        },
      };
    });
  });

const boxesMeet = (a: Piece, b: Piece): boolean =>
  a.boxes.some((p) => b.boxes.some((q) => [0, 1, 2].every((k) => p.low[k] < q.high[k] && q.low[k] < p.high[k])));

/** Do panels of both have an edge in common, or is it one and the same? */
const meetAlongEdge = ({ shape }: Stages, a: Piece, b: Piece): boolean =>
  a.faces.some((one) =>
    b.faces.some((other) => {
      const theirs = shape().faces[other].corners;
      const common = shape().faces[one].corners.filter((p) => theirs.some((q) => distance(p, q) < 0.002));
      return common.length > 1;
    }),
  );

/** Then a bend or hem of them is not told besides. */
const arePanelsTold = (shared: ReadonlySet<string>, a: Piece, b: Piece): boolean =>
  a.faces.some((one) =>
    b.faces.some((other) => shared.has(keyOf({ kind: 'panel', face: one }, { kind: 'panel', face: other }))),
  );

const nameOf = (taker: RoomTaker): string => JSON.stringify(taker);
const keyOf = (a: RoomTaker, b: RoomTaker): string => [nameOf(a), nameOf(b)].sort().join();

it('tubs with rims, hems, tabs and clips that fit are told nothing', () => {
  for (const text of fc.sample(rimmedText, { numRuns: casesOf(8), seed: 3 }))
    expect(analyseText(text, { rules: [] }).stages.sharedRoom()).toEqual([]);
});

/** A sheet of 40 to 190 mm a side, turned any way about a place near the middle. */
const randomPlate = (uniform: () => number, name: string, z: number): string => {
  const within = (from: number, to: number): number => from + (to - from) * uniform();
  const middle = [within(-30, 30), within(-30, 30), z];
  const [turn, lean] = [within(0, 2 * Math.PI), within(0, Math.PI)];
  const along = [Math.cos(turn), Math.sin(turn), 0];
  const up = [-Math.sin(turn) * Math.cos(lean), Math.cos(turn) * Math.cos(lean), Math.sin(lean)];
  const [wide, deep] = [within(20, 95), within(20, 95)];
  const corners = [[-wide, -deep], [wide, -deep], [wide, deep], [-wide, deep]].map(
    ([s, v]) => `(${middle.map((at, k) => (at + s * along[k] + v * up[k]).toFixed(6)).join(', ')})`,
  ); // prettier-ignore
  return `panel ${name} of skin metal up = ${corners.join(' ')}`;
};

it('says how far one must go to be clear of the other, and a place within both', async () => {
  const { solidOf, hull } = await solidKernel();
  const uniform = seededUniform(7);
  let told = 0;
  for (let i = 0; i < casesOf(12); i++) {
    const text = `units mm
sheet skin = stainless thickness ${(0.8 + 3 * uniform()).toFixed(2)} radius 1.6
${randomPlate(uniform, 'one', 0)}
support stand {
${randomPlate(uniform, 'other', 120 * (uniform() - 0.5))}
}
`;
    const { stages } = analyseText(text, { rules: [] });
    const [one, other] = stages.folded().map((part) => solidOf(part!));
    const commonAt = (way: Vec3, by: number): number => {
      const moved = one.translate(way[0] * by, way[1] * by, way[2] * by);
      const both = moved.intersect(other);
      const volume = both.volume();
      for (const each of [moved, both]) each.delete();
      return volume;
    };
    const [shared] = stages.sharedRoom();
    if (!shared) {
      expect(commonAt([0, 0, 1], 0), text).toBeLessThan(1);
      continue;
    }
    told++;
    const { depth, point } = shared;
    const speck = hull([[0, 0, 0], [1e-3, 0, 0], [0, 1e-3, 0], [0, 0, 1e-3]]).translate([...point]); // prettier-ignore
    expect(one.minGap(speck, 500), text).toBeLessThan(0.01);
    expect(other.minGap(speck, 500), text).toBeLessThan(0.01);
    // Rectangles have the normals of their sides along their edges and square to them.
    const ways = stages
      .shape()
      .faces.flatMap(({ corners: [a, b, , d], frame }) => [unit(subtract(b, a)), unit(subtract(d, a)), frame.normal])
      .flatMap((way) => [way, scale(way, -1)]);
    const slack = 0.02;
    expect(Math.min(...ways.map((way) => commonAt(way, depth + slack))), text).toBeLessThan(1e-6);
    expect(Math.min(...ways.map((way) => commonAt(way, depth - slack))), text).toBeGreaterThan(0);
    for (const each of [one, other, speck]) each.delete();
  }
  expect(told).toBeGreaterThan(5);
});
