import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction, Hover, MarkupContent } from 'vscode-languageserver-types';
import {
  CHECK_READING,
  LEARN,
  READINGS,
  WRITE_READINGS,
  type CheckedReading,
  type EditsOfText,
  type LearnResult,
  type ReadingPart,
} from '../../../src/language/protocol.js';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

const SHOP = `units mm
sheet skin = stainless 18 ga radius 1.6
shop "leaf and finger" { press brake finger { force 25 ton  bed 1250  die 8 12  punch radius 1  nose 30 deg  fingers 20 50 100  depth 120  opening 200 } }
`;
const floorNamed = (name: string): string => `strip ${name} of skin from (0, 300, 100) heading front across right 200 {
    panel back   80 falling 90 deg
    panel base  300 falling 3 deg
    panel front to z 100 rising 80 deg
}
`;
const OTHER = `use "shop.tub"
units mm
${floorNamed('pan')}made pan { bend back base reads 86.8 deg bent to 88 deg in 8 die }
`;

let client: LspClient;

beforeAll(async () => {
  client = await connectInProcess({ files: { 'shop.tub': SHOP, 'other.tub': OTHER } });
});
afterAll(() => client.close());

const readingsOf = (uri: string): Promise<readonly ReadingPart[]> => client.request(READINGS, { uri });
const write = async (uri: string, typed: readonly (string | null)[]): Promise<string> => {
  const written = await client.request<EditsOfText | null>(WRITE_READINGS, { uri, part: 'floor', typed });
  return written ? client.apply(written.uri, [...written.edits]) : 'nothing';
};

describe('entering readings', () => {
  test('asks for each bend as it is planned, writes what was typed, and goes on where it was left', async () => {
    const text = SHOP + floorNamed('floor');
    const uri = await client.open('enter.tub', text);
    const [part] = await readingsOf(uri);
    expect(part).toMatchObject({ name: 'floor', isInOrder: true });
    const ask = part.bends.map(({ name, told, stated }) => `${name}: ${told}, ${stated}`).sort();
    expect(ask).toEqual(['floor.back to floor.base: planned 87 deg, ', 'floor.base to floor.front: planned 83 deg, ']);
    // What is made comes first, so the order changes as it is read.
    const backOf = ({ bends }: ReadingPart): number => bends.findIndex(({ name }) => name.includes('back'));
    const typed = (of: ReadingPart, first: string | null, second: string | null): (string | null)[] =>
      backOf(of) === 0 ? [first, second] : [second, first];
    expect(await write(uri, typed(part, '86,5 bent to 88', null))).toBe(
      `${text}\nmade floor {\n    bend floor.back floor.base reads 86.5 deg bent to 88 deg\n}\n`,
    );
    const [again] = await readingsOf(uri);
    const back = backOf(again);
    expect(again.bends[back].stated).toBe('reads 86.5 deg bent to 88 deg');
    const other = again.bends[1 - back];
    // Nothing is cut that meets the strip: what is open stays as planned.
    expect(other.told).toBe('planned 83 deg');
    expect(await write(uri, typed(again, 'reads 86.5 deg bent to 88 deg', 'opens 97.2'))).toContain(
      'bend floor.base floor.front opens 97.2 deg\n',
    );
    // Cleared, a reading is taken out with its line.
    const [both] = await readingsOf(uri);
    expect(await write(uri, typed(both, '', null))).not.toContain('floor.back');
    expect(await write(uri, [null, null])).toBe('nothing');
  });

  test('keeps notes beside readings, and what is on one line', async () => {
    const noted = `made floor {   // off the brake
    bend base front reads 83.4 deg   // second try
}
`;
    const uri = await client.open('notes.tub', SHOP + floorNamed('floor') + noted);
    const [{ bends }] = await readingsOf(uri);
    const typed = bends.map(({ name }) => (name.includes('back') ? '86.5' : '83.1'));
    const after = await write(uri, typed);
    expect(after).toContain('bend base front reads 83.1 deg   // second try\n');
    expect(after).toContain('    bend floor.back floor.base reads 86.5 deg\n');
    const short = await client.open('short.tub', `${SHOP}${floorNamed('floor')}made floor { }\n`);
    const [asked] = await readingsOf(short);
    expect(
      await write(
        short,
        asked.bends.map(({ name }) => (name.includes('back') ? '86.5' : null)),
      ),
    ).toMatch(/made floor \{ {2}bend floor.back floor.base reads 86.5 deg {1,2}\}\n$/);
  });

  test.each([
    ['33 degrees', 'error', 'This is no reading'],
    ['190', 'error', 'less than 180'],
    ['93', 'warning', 'opens'],
    ['70', 'warning', 'read it again'],
  ])('%s: %s', async (typed, severity, message) => {
    const uri = await client.open('check.tub', SHOP + floorNamed('floor'));
    const [{ bends }] = await readingsOf(uri);
    const bend = bends.findIndex(({ name }) => name.includes('back'));
    const told = await client.request<CheckedReading | null>(CHECK_READING, { uri, part: 'floor', bend, typed });
    expect(told).toMatchObject({ severity, message: expect.stringContaining(message) as string });
    expect(await client.request(CHECK_READING, { uri, part: 'floor', bend, typed: '86.2' })).toBeNull();
  });

  test('both walks are offered where they belong', async () => {
    const text = `${SHOP}${floorNamed('floor')}made floor { bend back base reads 86.5 deg bent to 88 deg }\n`;
    const uri = await client.open('offered.tub', text);
    const titlesAt = async (word: string): Promise<string[]> => {
      const line = text.split('\n').findIndex((each) => each.startsWith(word));
      const range = { start: { line, character: 2 }, end: { line, character: 2 } };
      const context = { diagnostics: [], only: ['refactor.rewrite'] };
      const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
        textDocument: { uri },
        range,
        context,
      });
      return actions.map(({ command }) => command!.title);
    };
    expect(await titlesAt('strip')).toEqual(['Enter Readings']);
    expect(await titlesAt('made')).toEqual(['Enter Readings', 'Learn from Readings']);
    expect(await titlesAt('sheet')).toEqual(['Learn from Readings']);
    expect(await titlesAt('units')).toEqual([]);
  });
});

describe('the pointer on what was read', () => {
  const text = `${SHOP}${floorNamed('floor')}side left of skin closes floor.left up to 100
made floor standing on base {
    bend back base reads 86.4 deg bent to 87.4 deg
    panel base measures 302.4 over outside
    panel front stands 80.6 deg
    panel base  stands 3 deg
    may correct
}
made left { }
`;
  const hoverOn = async (uri: string, of: string, word: string, off = 1): Promise<string> => {
    const line = of.split('\n').findIndex((each) => each.includes(word));
    const position = { line, character: of.split('\n')[line].indexOf(word) + off };
    const hover = await client.request<Hover | null>('textDocument/hover', { textDocument: { uri }, position });
    return hover ? (hover.contents as MarkupContent).value : '';
  };

  test('tells what was planned, what was read, how far that is off and what it does', async () => {
    const uri = await client.open('pointer.tub', text);
    const bend = await hoverOn(uri, text, 'bend back base reads');
    expect(bend).toMatch(/planned 87 deg, read 86.4 deg: -0.6 deg off; it sprang back 1 deg/);
    expect(await hoverOn(uri, text, 'reads 86.4')).toContain('planned 87 deg, read 86.4 deg');
    expect(await hoverOn(uri, text, 'panel base measures')).toMatch(
      /302.4 mm by tape, over the outside\n- on its wet face .* planned 300 mm: [+-][\d.]+ mm off\n- .* teaches K/,
    );
    expect(await hoverOn(uri, text, 'panel front stands')).toMatch(
      /found standing 80.6 deg to level\n- as made 80.6 deg, planned 80 deg, worth ±0.06 deg .*\n- it leans the strip/,
    );
    const made = await hoverOn(uri, text, 'made floor standing');
    expect(made).toMatch(/cut; 2 of 2 bends read/);
    expect(made).toMatch(/`floor.back floor.base`: planned 87 deg, read 86.4 deg, -0.6 deg/);
    expect(made).toMatch(/`floor.base floor.front`: planned 83 deg, by slopes 83.6 deg, \+0.6 deg/);
    expect(made).toMatch(/correct `floor.ba[^`]*` first, to [\d.]+ deg: largest gap/);
    // On the panel that the bend begins at as well.
    expect(await hoverOn(uri, text, 'panel base  300', 7)).toMatch(/planned 87 deg, read 86.4 deg/);
  });

  test('in inches where the text is', async () => {
    const inches = text
      .replace('units mm', 'units in')
      .replace(/radius 1.6$/m, 'radius 1/16')
      .replace(/die 8 12  punch radius 1 /, 'die 8 mm 12 mm  punch radius 1 mm ')
      .replace('bed 1250', 'bed 50')
      .replace('fingers 20 50 100  depth 120  opening 200', 'fingers 1 2 4  depth 5  opening 8')
      .replace('(0, 300, 100)', '(0, 12, 4)')
      .replace('across right 200', 'across right 8')
      .replace('back   80 falling', 'back   3 1/8 falling')
      .replace('base  300 falling', 'base  12 falling')
      .replace(/to z 100|up to 100/g, (each) => each.replace('100', '4'))
      .replace('measures 302.4', 'measures 12 1/16');
    const uri = await client.open('inches.tub', inches);
    for (const word of ['bend back base reads', 'panel base measures', 'panel front stands', 'made floor standing']) {
      const told = await hoverOn(uri, inches, word);
      expect(told).not.toBe('');
      expect(told.replace(/`[^`]*`/g, '')).not.toMatch(/\d ?mm/);
    }
    expect(await hoverOn(uri, inches, 'panel base measures')).toMatch(/12\.0625 in by tape/);
  });
});

describe('learning from readings', () => {
  test('several tubs teach the sheet that they use, die by die; what is cut keeps its K', async () => {
    await client.open('shop.tub', SHOP);
    await client.open('other.tub', OTHER);
    const text = `use "shop.tub"
units mm
${floorNamed('floor')}made floor standing on base {
    bend back base  reads 86.4 deg bent to 87.4 deg in 8 die
    bend base front reads 82.8 deg bent to 84.2 deg in 12 die
    panel base measures 302.4 over outside
}
`;
    const uri = await client.open('tub.tub', text);
    const learned = await client.request<LearnResult>(LEARN, { uri });
    // In 8 dies 1 and 1.2 sprang back: 1.1, s = 0.1414, of one more bend s * sqrt(1.5) * sqrt(3) = 0.3 deg; in 12 one alone.
    expect(learned.told).toEqual([
      expect.stringMatching(
        /^sheet skin: springback 1.1 deg in 8 die within 0.3 deg from 2 bends, springback 1.4 deg in 12 die from 1 bend, k 0\.\d+ within [0-9.]+ from 1 leg$/,
      ),
    ]);
    const [shop, own] = ['shop.tub', 'tub.tub'].map((name) =>
      learned.texts.find((each) => each.uri.endsWith(`/${name}`))!,
    );
    expect(own.edits).toEqual([
      expect.objectContaining({ newText: expect.stringMatching(/^ {4}cut with k 0\.\d+\n$/) as string }),
    ]);
    const sheetLine = (await client.apply(shop.uri, [...shop.edits])).split('\n')[1];
    expect(sheetLine).toContain('radius 1.6  springback 1.1 deg in 8 die within 0.3 deg from 2 bends');
    for (const { uri: each, edits } of learned.texts) if (each !== shop.uri) await client.apply(each, [...edits]);
    // Learned again it comes to the same: nothing is left to write.
    expect((await client.request<LearnResult>(LEARN, { uri })).texts).toEqual([]);
  });
});
