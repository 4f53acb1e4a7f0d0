import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { afterAll, describe, expect, it } from 'vitest';
import { diskHost } from '../../../src/language/cli/disk/disk-host.js';
import { plainPaint } from '../../../src/language/cli/paint.js';
import { run, type ExitCode } from '../../../src/language/cli/run.js';
import { trayText } from '../../support/tubs/tray-text.js';

const folder = mkdtempSync(join(tmpdir(), 'tubwright-solve-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const TRAY = trayText({ rim: '60 free 40 to 120 by 5', rest: 'aim { least let rim  capacity at least 6 L }' });

interface Ran {
  readonly code: ExitCode;
  readonly out: string;
  readonly error: string;
}

/** The command on a file with that text. */
const solve = async (text: string, ...switches: readonly string[]): Promise<Ran & { readonly after: string }> => {
  const path = join(folder, `tray${readdirSync(folder).length}.tub`);
  writeFileSync(path, text);
  const [out, error]: [string[], string[]] = [[], []];
  const put = (list: string[]) => (line: string) => list.push(line.replaceAll(path, 'tray.tub'));
  const console = {
    out: put(out),
    write: put(out),
    error: put(error),
    paint: plainPaint,
    version: '1.2.3',
    exporters: [],
  };
  const code = await run(['solve', path, ...switches], diskHost, console);
  return { code, out: out.join('\n'), error: error.join('\n'), after: readFileSync(path, 'utf8') };
};

describe('tubwright solve', () => {
  it('tells values before and after, what holds them, and every wish; the file stays as it is', async () => {
    const { code, out, error, after } = await solve(TRAY);
    expect(code).toBe(0);
    expect(out.split('\n').slice(1)).toEqual([
      '  rim  60 mm ->  75 mm',
      '      down to 70 mm: misses capacity at least 6 L',
      '      up to 80 mm: least let rim +5 mm',
      '  least let rim                   met  75 mm, before 60 mm',
      // 300 * 300 cos 1 deg * (75 - 10 + 300 sin 1 deg / 2) is 6.08468 L.
      '  capacity at least 6 L           met  6.08468 L, before 4.73489 L',
      '  no error that is not there now  met',
    ]);
    expect(out).toMatch(/^tray\.tub: all wishes are met; \d+ tubs tried$/m);
    expect(error).toBe('tray.tub stays as it is; --write puts the values into it');
    expect(after).toBe(TRAY);
  });

  it('writes the values into the file where that is asked for, and leaves nothing else behind', async () => {
    const { code, error, after } = await solve(TRAY, '--write');
    expect([code, error]).toEqual([0, '']);
    expect(after).toBe(TRAY.replace('let rim = 60', 'let rim = 75'));
    expect(readdirSync(folder).filter((name) => !name.endsWith('.tub'))).toEqual([]);
  });

  it('names the wishes in conflict, writes nothing and exits 1', async () => {
    const text = TRAY.replace('capacity at least 6 L', 'capacity at least 6 L  capacity at most 5 L');
    const { code, out, error, after } = await solve(text, '--write');
    expect([code, after]).toEqual([1, text]);
    expect(out.split('\n').slice(-3)).toEqual([
      'No values were found that meet these together; one has to give way:',
      '  capacity at least 6 L: 4.73489 L is the nearest to 6 L found while the others are met',
      '  capacity at most 5 L: 6.08468 L is the nearest to 5 L found while the others are met',
    ]);
    expect(error).toBe('Not all wishes can be met: tray.tub stays as it is');
  });

  it('prints JSON as its schema says, every number with its unit, the choices where asked for', async () => {
    const text = TRAY.replace('least let rim', 'least let rim  most capacity');
    const { code, out } = await solve(text, '--json', '--curve', '--tries', '60');
    const schema = JSON.parse(readFileSync('src/language/cli/solve.schema.json', 'utf8')) as object;
    const printed = JSON.parse(out) as Record<string, unknown>;
    const validate = new Ajv({ strict: false }).compile(schema);
    expect([code, validate(printed), validate.errors]).toEqual([0, true, null]);
    expect(printed).toMatchObject({
      met: true,
      values: [{ name: 'rim', written: '75', before_mm: 60, after_mm: 75, low_mm: 40, high_mm: 120 }],
      conflicts: [],
    });
    expect((printed.choices as Record<string, unknown>[])[0]).toEqual({
      chosen: true,
      values: { rim: 75 },
      first_mm: 75,
      second_L: 6.08468062,
    });
  });

  it('finds values that do for every variant', async () => {
    const text = `${TRAY}variant "small" { let inside = 200 }\nvariant "large" { let inside = 320 }\n`;
    const { code, after } = await solve(text, '--write');
    // 200 * 300 cos 1 deg * (110 - 10 + 300 sin 1 deg / 2) is 6.156 L; at 105 it is 5.857 L.
    expect([code, after]).toEqual([0, text.replace('let rim = 60', 'let rim = 110')]);
  });

  it('names the variants that miss a wish with whatever values, and writes nothing', async () => {
    const text = `${TRAY}variant "small" { let inside = 150 }\nvariant "large" { let inside = 320 }\n`;
    const { code, out, after } = await solve(text, '--write');
    expect([code, after]).toEqual([1, text]);
    expect(out.split('\n').slice(-1)).toEqual(['Variant "small" misses capacity at least 6 L with these values']);
  });

  it('report tells of one variant alone, under its name; one that is not there is refused with those that are', async () => {
    const path = join(folder, 'variants.tub');
    writeFileSync(path, `${TRAY}variant "small" { let inside = 200 }\n`);
    const [out, error]: [string[], string[]] = [[], []];
    const console = {
      out: (line: string) => out.push(line),
      write: (line: string) => out.push(line),
      error: (line: string) => error.push(line),
      paint: plainPaint,
      version: '1',
      exporters: [],
    };
    expect(await run(['report', path, '--variant', 'small', '--json'], diskHost, console)).toBe(0);
    const report = JSON.parse(out[0]) as { tub: { name: string } };
    expect(JSON.stringify(report)).toContain('Drip tray, small');
    expect(await run(['report', path, '--variant', 'smal'], diskHost, console)).toBe(2);
    expect(error.join()).toContain('has no variant "smal"; it has "small"');
  });

  it.each([
    ['no aim', trayText({ rim: '60 free 40 to 120' }), 'it has no `aim`'],
    ['nothing free', trayText({ rest: 'aim { capacity at least 3 L }' }), 'no value of it is free'],
    ['an empty aim', trayText({ rim: '60 free 40 to 120', rest: 'aim { }' }), 'its `aim` wishes for nothing'],
    ['a wish with an error', TRAY.replace('6 L', '-6 L'), 'a wish has an error'],
    ['limits that cross', TRAY.replace('40 to 120', '120 to 40'), '`rim` cannot be free as it is written'],
    ['limits without unit', TRAY.replace('1 deg', '1 deg free 1 to 3'), '`fall` cannot be free as it is written'],
    ['a text that cannot be read', TRAY.replace('aim {', 'aim { one machine onyl'), 'the text has faults'],
  ])('works nothing out for %s: what could not be read would be left out', async (_, text, reason) => {
    const { code, out, error, after } = await solve(text, '--write');
    expect([code, out, after]).toEqual([2, '', text]);
    expect(error).toContain(`Nothing is worked out for tray.tub: ${reason}`);
  });

  it.each([
    ['--tries 0', '--tries needs a whole number from 1 to 1000000'],
    ['--tries many', '--tries needs a whole number from 1 to 1000000'],
    ['--fast', "Unknown option '--fast'"],
  ])('%s is refused', async (switches, reason) => {
    const { code, error } = await solve(TRAY, ...switches.split(' '));
    expect(code).toBe(2);
    expect(error).toContain(reason);
  });
});
