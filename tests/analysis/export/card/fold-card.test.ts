import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, test } from 'vitest';
import { cardPages } from '../../../../src/analysis/export/card/card-pages.js';
import type { CardPattern } from '../../../../src/analysis/export/card/card-pattern.js';
import { cardPatternsOf } from '../../../../src/analysis/export/card/make-pattern.js';
import { unitsOf } from '../../../../src/analysis/export/traveller/layout/units.js';
import { exportMark } from '../../../../src/files/own-mark.js';
import { makeExport } from '../../../../src/language/requests/make-export.js';
import { fileStem } from '../../../../src/analysis/export/file-names.js';
import { cardExporter } from '../../../../src/language/hosts/card-files.js';
import { writePdf } from '../../../../src/language/hosts/pdf-writer.js';
import { analyseText } from '../../../support/analyse-text.js';

type V3 = readonly [number, number, number];

const samples = join(import.meta.dirname, '../../../../samples');
const textOf = (name: string): string => readFileSync(join(samples, name), 'utf8');
const stagesOf = (name: string): ReturnType<typeof analyseText>['stages'] =>
  analyseText(textOf(name), { files: { 'shop.tub': textOf('shop.tub') } }).stages;

const minus = (a: V3, b: V3): V3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const crossed = (a: V3, b: V3): V3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const dotted = (a: V3, b: V3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const long = (a: V3): number => Math.sqrt(dotted(a, a));

/** By hand: a point turned about an axis (Rodrigues). */
const turned = (p: V3, at: V3, axis: V3, angle: number): V3 => {
  const k = axis.map((x) => x / long(axis)) as unknown as V3;
  const v = minus(p, at);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const w = crossed(k, v);
  return v.map((x, i) => at[i] + x * c + w[i] * s + k[i] * dotted(k, v) * (1 - c)) as unknown as V3;
};

/** Corners of all panels once every fold is made, the viewer at z > 0. */
const foldedCorners = ({ panels, folds }: CardPattern): V3[][] => {
  const corners = panels.map(({ outline }) => outline.map(([x, y]): V3 => [x, y, 0]));
  const neighbours = panels.map((_, i) => folds.flatMap(({ panels: [a, b] }) => (a === i ? [b] : b === i ? [a] : [])));
  const beyond = (from: number, to: number): number[] => {
    const seen = new Set([from, to]);
    const queue = [to];
    for (const i of queue)
      for (const j of neighbours[i]) {
        if (seen.has(j)) continue;
        seen.add(j);
        queue.push(j);
      }
    return queue;
  };
  const lines = folds.map(({ from, to }): [V3, V3] => [
    [from[0], from[1], 0],
    [to[0], to[1], 0],
  ]);
  folds.forEach((fold, f) => {
    const moved = beyond(fold.panels[0], fold.panels[1]);
    const [at, to] = lines[f];
    const axis = minus(to, at);
    // Up: the panel rises towards the viewer. The sign is that which lifts its middle off its parent's plane.
    const [p, q, r] = corners[fold.panels[0]];
    const normal = crossed(minus(q, p), minus(r, p));
    // Laid flat its first corner turned one way or the other; the viewer stays on that side of the panel.
    const [a, b, c] = panels[fold.panels[0]].outline;
    const turn = Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
    const front = normal.map((x) => x * turn) as unknown as V3;
    const middle = corners[fold.panels[1]].reduce<V3>(
      (sum, x) => [sum[0] + x[0], sum[1] + x[1], sum[2] + x[2]],
      [0, 0, 0],
    );
    const centre = middle.map((x) => x / corners[fold.panels[1]].length) as unknown as V3;
    const lifts = (angle: number): number => dotted(minus(turned(centre, at, axis, angle), at), front);
    const sign = lifts(0.01) > 0 === (fold.direction === 'up') ? 1 : -1;
    const move = (x: V3): V3 => turned(x, at, axis, sign * fold.angle);
    for (const i of moved) corners[i] = corners[i].map(move);
    folds.forEach((other, k) => {
      if (k !== f && other.panels.every((i) => moved.includes(i) || i === fold.panels[1]))
        lines[k] = lines[k].map(move) as [V3, V3];
    });
  });
  return corners;
};

describe.each(['herb-wash-basin.tub', 'drip-pan.tub', 'seed-funnel.tub', 'hooked-drip-shelf.tub'])(
  '%s in card',
  (name) => {
    const stages = stagesOf(name);
    const { faces } = stages.shape();
    const patterns = cardPatternsOf(stages, 10);

    test('folded by hand, every pattern is the wet side of its part, true and not mirrored', () => {
      expect(patterns.length).toBe(stages.parts().length);
      for (const pattern of patterns) {
        const made = foldedCorners(pattern).flat();
        const drawn = pattern.panels.flatMap(({ face }) => faces[face].corners);
        for (let i = 0; i < made.length; i++)
          for (let j = 0; j < i; j++)
            expect(Math.abs(long(minus(made[i], made[j])) - long(minus(drawn[i], drawn[j])))).toBeLessThan(2e-3);
        const volume = (points: readonly V3[]): number => {
          const [a, b, c] = points;
          return points.reduce((sum, d) => sum + dotted(minus(d, a), crossed(minus(b, a), minus(c, a))), 0);
        };
        expect(volume(made) / Math.max(1, Math.abs(volume(drawn)))).toBeCloseTo(
          volume(drawn) / Math.max(1, Math.abs(volume(drawn))),
          3,
        );
      }
    });

    test('each seam has a flap on one of its sides, and its number on both', () => {
      const flaps = patterns.flatMap((pattern) => pattern.flaps);
      stages.joints().seams.forEach(({ runs }, seam) => {
        const own = flaps.filter((flap) => flap.seam === seam);
        expect(own.length).toBe(2 * runs.length);
        expect(own.filter(({ outline }) => outline.length > 0).length).toBeLessThanOrEqual(runs.length);
      });
    });
  },
);

test('on paper a pattern is 1:1, by an independent reader', async () => {
  const stages = stagesOf('clipped-seed-rinse.tub');
  const { pages } = cardPages(stages, 'A4', unitsOf('metric'));
  const pattern = cardPatternsOf(stages, 10).find(({ name }) => name === 'leftCheek');
  if (!pattern) throw new Error('it has a left cheek');
  const at = pages.findIndex(({ opens }) => opens.some(({ key }) => key === 'card-leftCheek'));
  const bytes = await writePdf({ title: 't', keywords: 'k' }, pages.slice(at + 1, at + 2));
  const file = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0 }).promise;
  const { fnArray, argsArray } = await (await file.getPage(1)).getOperatorList();
  const boxes = fnArray.flatMap((op: number, k: number) => {
    if (op !== OPS.constructPath) return [];
    const [x0, y0, x1, y1] = [...(argsArray[k] as unknown[][])[2]] as number[];
    return [[(x1 - x0) * (25.4 / 72), (y1 - y0) * (25.4 / 72)]];
  });
  await file.destroy();
  const flaps = pattern.flaps.filter(({ outline }) => outline.length > 0);
  expect(flaps.length).toBeGreaterThan(2);
  for (const {
    outline: [from, to],
  } of flaps) {
    const [w, h] = [Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])];
    const nearest = Math.min(...boxes.map(([x, y]) => Math.max(Math.abs(x - w), Math.abs(y - h))));
    expect(nearest).toBeLessThan(0.1);
  }
});

test('the file is an own export of the tub', async () => {
  const stages = stagesOf('seed-funnel.tub');
  const making = makeExport(stages, { formats: ['card'], options: { paper: 'Letter', units: 'inch' } }, [cardExporter]);
  let step = await making.next();
  while (!step.done) step = await making.next();
  const { files, left } = step.value;
  expect(left).toEqual([]);
  expect(files.map(({ name }) => name)).toEqual([`${fileStem(stages.tub.name)}-card.pdf`]);
  expect(Buffer.from(files[0].content).includes(exportMark(stages.tub.name))).toBe(true);
});
