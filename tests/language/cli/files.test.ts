/** Commands over files of a disk: folders and patterns, what is mended, laid out, explained and checked again. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { Host } from '../../../src/language/cli/command.js';
import { diskHost } from '../../../src/language/cli/disk/disk-host.js';
import { forgetFiles } from '../../../src/language/cli/disk/texts.js';
import { plainPaint } from '../../../src/language/cli/paint.js';
import { run, type ExitCode } from '../../../src/language/cli/run.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tubwright-files-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const put = (name: string, text: string): string => {
  const path = join(folder, name);
  mkdirSync(join(path, '..'), { recursive: true });
  writeFileSync(path, text);
  forgetFiles();
  return path;
};

interface Ran {
  readonly code: ExitCode;
  readonly out: string;
  readonly error: string;
}

const tubwright = async (words: readonly string[], host: Host = diskHost): Promise<Ran> => {
  const [out, error]: [string[], string[]] = [[], []];
  const here = (list: string[]) => (text: string) => list.push(text.replaceAll(`${folder}/`, ''));
  const console = {
    out: here(out),
    write: here(out),
    error: here(error),
    paint: plainPaint,
    version: '1',
    exporters: [],
  };
  const code = await run(words, host, console);
  return { code, out: out.join('\n'), error: error.join('\n') };
};

const GOOD = 'units mm\nlet a = 1\n';
const BAD = 'units mm\nlet a = b\n';

const filesOf = ({ out }: Ran): readonly string[] =>
  (JSON.parse(out) as { files: { file: string }[] }).files.map(({ file }) => file);

it('checks all tubs of a folder, each once, sorted, hidden folders, packages and links to folders left out', async () => {
  for (const name of ['b.tub', 'a.tub', 'in/c.tub', '.git/d.tub', 'node_modules/e.tub', 'note.txt']) put(name, GOOD);
  symlinkSync(folder, join(folder, 'round'));
  const ran = await tubwright(['check', folder, join(folder, 'a.tub'), '--json']);
  expect([ran.code, filesOf(ran)]).toEqual([0, ['a.tub', 'b.tub', 'in/c.tub']]);
});

it('takes patterns that no shell has opened, and says of a word that means nothing that it does', async () => {
  for (const name of ['b.tub', 'a.tub', 'in/c.tub', 'in/d.txt']) put(name, GOOD);
  const ran = await tubwright(['check', `${folder}/**/[ac].*`, '--json']);
  expect(filesOf(ran)).toEqual(['a.tub', 'in/c.tub']);
  mkdirSync(join(folder, 'empty'));
  const none = await tubwright(['check', `${folder}/x*.tub`, join(folder, 'empty'), join(folder, 'b.tub')]);
  expect(none).toEqual({
    code: 2,
    out: 'b.tub: nothing to report',
    error: `No .tub file fits x*.tub\nThere is no .tub file in ${join(folder, 'empty')}`.replaceAll(`${folder}/`, ''),
  });
});

it('tells of the files that it could read, and in JSON of those that it could not', async () => {
  put('good.tub', GOOD);
  const words = ['check', join(folder, 'good.tub'), join(folder, 'none.tub')];
  expect(await tubwright(words)).toEqual({
    code: 2,
    out: 'good.tub: nothing to report',
    error: 'There is no file none.tub',
  });
  const { out } = await tubwright([...words, '--json']);
  expect((JSON.parse(out) as { unread: unknown }).unread).toEqual([
    { file: 'none.tub', reason: 'There is no file none.tub' },
  ]);
});

it('prints JSON also where there is nothing to tell of but that it failed', async () => {
  const { code, out } = await tubwright(['report', join(folder, 'none.tub'), '--json']);
  expect([code, JSON.parse(out)]).toEqual([2, { version: 1, error: 'There is no file none.tub' }]);
});

it('--quiet tells errors alone; --max-warnings counts what it does not tell', async () => {
  const path = put('two.tub', `${BAD}accept nothing/such because "x"\n`);
  expect((await tubwright(['check', path])).out).toContain('text/unknown-code');
  const quiet = await tubwright(['check', path, '--quiet']);
  expect(quiet.out).not.toContain('text/unknown-code');
  put('two.tub', `${GOOD}accept nothing/such because "x"\n`);
  expect((await tubwright(['check', path, '--quiet', '--max-warnings', '1'])).code).toBe(0);
  expect((await tubwright(['check', path, '--quiet', '--max-warnings', '0'])).code).toBe(1);
  expect((await tubwright(['check', path, '--max-warnings', '-1'])).code).toBe(2);
});

it('--fix puts right what has one way to be put right, and nothing else', async () => {
  const path = put('twice.tub', 'units mm\nunits mm\nlet a = b\n');
  const { code, error } = await tubwright(['check', path, '--fix']);
  expect([code, error]).toEqual([1, 'twice.tub: one place put right']);
  expect(readFileSync(path, 'utf8')).toBe('units mm\nlet a = b\n');
});

it('fmt lays out what can be read, names it, and changes nothing under --check', async () => {
  const [loose, broken] = [put('loose.tub', 'units   mm\nlet a=1\n'), put('broken.tub', 'units mm\nlet = {\n')];
  put('tidy.tub', GOOD);
  const all = await tubwright(['fmt', folder, '--check']);
  expect(all).toEqual({
    code: 1,
    out: 'loose.tub',
    error: 'broken.tub cannot be read as it stands and is left alone; tubwright check says why',
  });
  expect(readFileSync(loose, 'utf8')).toBe('units   mm\nlet a=1\n');
  await tubwright(['fmt', folder]);
  expect(readFileSync(loose, 'utf8')).toBe(GOOD);
  expect(readFileSync(broken, 'utf8')).toBe('units mm\nlet = {\n');
  expect((await tubwright(['fmt', loose, '--check'])).code).toBe(0);
});

it('--watch checks again when a file has changed, until it is told to stop', async () => {
  const path = put('tub.tub', GOOD);
  let rounds = 0;
  const host: Host = {
    ...diskHost,
    change: (signal) => {
      if (rounds++ === 1) process.emit('SIGINT');
      else setTimeout(() => put('tub.tub', BAD), 20);
      return diskHost.change(signal);
    },
  };
  const { code, out } = await tubwright(['check', path, '--watch'], host);
  expect([code, out.split('\n').length]).toEqual([1, 3]);
  expect(out).toMatch(/^tub\.tub: nothing to report\ntub\.tub:2:9: error text\/unknown-name: /);
});

it('explains a finding by its page, and knows what was meant', async () => {
  const host: Host = { ...diskHost, pageOf: async (code) => `# ${code}\n` };
  expect(await tubwright(['explain', 'seal/open-corner'], host)).toEqual({
    code: 0,
    out: '# seal/open-corner',
    error: '',
  });
  expect(await tubwright(['explain', 'seal/open-corne'], host)).toMatchObject({
    code: 2,
    error: 'No finding is called seal/open-corne; did you mean seal/open-corner',
  });
  expect((await tubwright(['explain'])).out.split('\n')).toEqual(
    expect.arrayContaining(['seal/open-corner', 'text/syntax']),
  );
});

it.each([
  [['tubwright', 'ch'], 'check'],
  [['tubwright', 'check', '--fo'], '--format'],
  [['tubwright', 'check', '--format', 'sa'], 'sarif'],
  [['tubwright', 'explain', 'seal/open-corn'], 'seal/open-corner'],
  [['tubwright', 'completions', 'z'], 'zsh'],
])('bash completes %j', async (words, completed) => {
  const { out } = await tubwright(['completions', 'bash']);
  const script = `${out}\nCOMP_WORDS=(${words.join(' ')}); COMP_CWORD=${words.length - 1}; _tubwright; echo "\${COMPREPLY[@]}"`;
  expect(spawnSync('bash', ['-c', script], { encoding: 'utf8' }).stdout.trim()).toBe(completed);
});

it('has words for the other shells, and refuses one that it does not know', async () => {
  expect((await tubwright(['completions', 'zsh'])).out).toContain('bashcompinit');
  expect((await tubwright(['completions', 'fish'])).out).toContain(
    "complete -c tubwright -n '__fish_seen_subcommand_from check' -l max-warnings -r",
  );
  expect((await tubwright(['completions', 'csh'])).error).toContain('Name one shell: bash, zsh, fish');
});
