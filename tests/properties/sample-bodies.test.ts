/** Everything of every sample that leaves as a solid: no two take the same room, but for what tabs are set in by. */
import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { analyseText } from '../support/analyse-text.js';
import { assembledBodies } from '../support/oracles/assembled-bodies.js';

let bodies: Awaited<ReturnType<typeof assembledBodies>>;
beforeAll(async () => {
  bodies = await assembledBodies();
});

const samples = readdirSync('samples').filter((name) => name.endsWith('.tub') && !/^(faults|shop)/.test(name));
const shop = readFileSync('samples/shop.tub', 'utf8');

describe('parts, clips, fasteners, lips and frames of a sample', () => {
  it.each(samples)('%s take no room from one another', (name) => {
    const { stages } = analyseText(readFileSync(`samples/${name}`, 'utf8'), { files: { 'shop.tub': shop }, rules: [] });
    expect(bodies.sharedBy(stages)).toEqual([]);
  });
});
