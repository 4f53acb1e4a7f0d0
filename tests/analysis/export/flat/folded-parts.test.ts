/** Whole parts of every sample, folded from their written drawings alone, against the panels and openings that the text states. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dxfFiles } from '../../../../src/analysis/export/flat/flat-files.js';
import { feetOn } from '../../../../src/analysis/fold/marked-side.js';
import type { FlatPattern } from '../../../../src/analysis/fold/flat-pattern.js';
import { flatsToCut } from '../../../../src/analysis/stages/flats-to-cut.js';
import type { Stages } from '../../../../src/analysis/stages/stages.js';
import { analyseText } from '../../../support/analyse-text.js';
import { foldDrawing, type FoldedDrawing, type P3 } from '../../../support/oracles/fold-drawing.js';

/** mm. The drawing tells angles to 0.01 deg and allowances to 0.001 mm: over a strip of eleven bends they add up. */
const OFF = 0.15;

const samples = readdirSync('samples').filter((name) => name.endsWith('.tub') && !/^(faults|shop)/.test(name));
const shop = readFileSync('samples/shop.tub', 'utf8');

const minus = (a: P3, b: P3): P3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: P3, b: P3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Lays the piece on which the flat's root is drawn where the root stands; all others then are where the folding puts them. */
const placed = (flat: FlatPattern, folded: FoldedDrawing): ((point: P3) => P3) => {
  const { origin, u, v, normal } = flat.place!;
  const { region } = flat.panels[0];
  const middle = region.reduce(([x, y], p) => [x + p.x / region.length, y + p.y / region.length], [0, 0]) as [
    number,
    number,
  ];
  const root = folded.pieces[Math.max(0, folded.pieceAt(middle))];
  const at = root.dry([0, 0]);
  const [ex, ey, ez] = [minus(root.dry([1, 0]), at), minus(root.dry([0, 1]), at), root.normal];
  return (point) => {
    const off = minus(point, at);
    const [x, y, z] = [dot(off, ex), dot(off, ey), dot(off, ez)];
    return [0, 1, 2].map((k) => origin[k] + x * u[k] + y * v[k] + z * normal[k]) as unknown as P3;
  };
};

/** Farthest that any corner of a piece is off the wet face of the panel whose face it fits best, mm. */
const offPanels = (stages: Stages, corners: readonly P3[]): number =>
  Math.min(
    ...stages
      .shape()
      .faces.map(({ frame: { origin, normal } }) =>
        Math.max(...corners.map((corner) => Math.abs(dot(minus(corner, origin), normal)))),
      ),
  );

describe('parts of the samples, folded from their drawings', () => {
  it.each([
    ...samples.map((name) => [name, ''] as const),
    ['herb-wash-basin.tub', 'marks on wet side of floor'] as const,
    ['hooked-drip-shelf.tub', 'marks on dry side'] as const,
  ])('%s %s: panels lie in the planes and openings at the places that are stated', async (name, stated) => {
    const text = `${readFileSync(`samples/${name}`, 'utf8')}\n${stated}\n`;
    const { stages } = analyseText(text, { files: { 'shop.tub': shop }, rules: [] });
    const files = [...dxfFiles(stages)];
    const bends = new Set(stages.shape().bends.map((bend) => bend.name));
    const round = stages.tub.openings.flatMap(({ shape }) => (shape.kind === 'round' ? [shape] : []));
    const found = new Set<unknown>();
    let panels = 0;
    let feet = 0;
    for (const [i, flat] of flatsToCut(stages).entries()) {
      if (!flat.place) continue;
      const folded = await foldDrawing(String(files[i].content));
      const place = placed(flat, folded);
      for (const { bends: own, rings, wet } of folded.pieces) {
        // Tabs and lips of hems hang on bends of their own.
        if (own.length > 0 && !own.some((bend) => bends.has(bend))) continue;
        expect(
          offPanels(
            stages,
            rings.flat().map((point) => place(wet(point))),
          ),
        ).toBeLessThan(OFF);
        panels++;
      }
      for (const { points, side, text } of feetOn(flat)) {
        const standing = stages.shape().faces.find((face) => face.name === text)!.frame;
        for (const share of [0.25, 0.5, 0.75]) {
          const [a, b] = points;
          const on = [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])] as const;
          const at = place(folded.pieces[folded.pieceAt(on)][side ?? 'dry'](on));
          expect(Math.abs(dot(minus(at, standing.origin), standing.normal))).toBeLessThan(OFF);
          feet++;
        }
      }
      for (const { center } of folded.holes) {
        const piece =
          folded.pieces[folded.pieceAt([center[0], center[1]])] ?? folded.pieces.find(({ rings }) => rings.length > 1);
        const at = place(piece.wet([center[0], center[1]]));
        const stated = round.find((shape) => Math.hypot(...minus(at, shape.center)) < OFF);
        if (stated) found.add(stated);
      }
    }
    expect(panels).toBeGreaterThan(0);
    if (name === 'settling-box.tub') expect(feet).toBe(5 * 3);
    expect(found.size).toBe(round.length);
  });
});
