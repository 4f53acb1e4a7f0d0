/** Parts of every sample as exported bodies: no two take the same room, but for what tabs are set in by. */
import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { analyseText } from '../support/analyse-text.js';
import { meshBodies } from '../support/oracles/mesh-bodies.js';

let bodies: Awaited<ReturnType<typeof meshBodies>>;
beforeAll(async () => {
  bodies = await meshBodies();
});

const samples = readdirSync('samples').filter((name) => name.endsWith('.tub') && !/^(faults|shop)/.test(name));
const shop = readFileSync('samples/shop.tub', 'utf8');

describe('the parts of a sample', () => {
  it.each(samples)('%s take no room from one another', (name) => {
    const { stages } = analyseText(readFileSync(`samples/${name}`, 'utf8'), { files: { 'shop.tub': shop }, rules: [] });
    const made = stages
      .folded()
      .flatMap((part, i) => (part ? [{ part: stages.parts()[i], body: bodies.bodyOf(part) }] : []));
    const spare = (one: number, other: number): number => {
      const pair = [made[one], made[other]].map(({ part }) => part.faces);
      let room = 0;
      for (const { runs } of stages.joints().seams) {
        for (const { row, run, fits } of runs) {
          const joins = pair.every((faces) => run.sides.some(({ face }) => faces.includes(face)));
          if (!row || row.tabs.on === 'loose' || !joins) continue;
          // What the tabs are set in by, and the edges that are bevelled to lie in their bends.
          const { wide, deep, inset } = row.tabs;
          room +=
            row.centres.length * wide * (deep * inset + fits.reduce((sum, fit) => sum + fit.along * fit.across, 0));
        }
      }
      return room;
    };
    const found: string[] = [];
    for (let i = 0; i < made.length; i++) {
      for (let j = i + 1; j < made.length; j++) {
        const common = bodies.commonOf(made[i].body, made[j].body);
        if (common > 0.05 + spare(i, j)) found.push(`${made[i].part.name} and ${made[j].part.name}: ${common} mm3`);
      }
    }
    expect(found).toEqual([]);
  });
});
