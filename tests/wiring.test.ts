/** What is added comes with all that belongs to it: what is half wired fails here with what is missing, and where. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exportFormats } from '../src/analysis/export/exporter.js';
import { fileNamesOf } from '../src/analysis/export/file-names.js';
import { rules } from '../src/analysis/rules/registry.js';
import { languageFindings } from '../src/language/findings/catalogue.js';
import { nodeExporters } from '../src/language/hosts/node-exporters.js';

const root = join(import.meta.dirname, '..');
const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');
const filesIn = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => `${folder}/${name}`)
    .sort();
const allText = (...folders: string[]): string => folders.flatMap(filesIn).map(textOf).join('\n');
const foldersIn = (folder: string): string[] =>
  readdirSync(join(root, folder), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => name);

/** Sentences for what does not hold. */
const missing = (...parts: readonly (readonly [holds: boolean, sentence: string])[]): string[] =>
  parts.filter(([holds]) => !holds).map(([, sentence]) => sentence);

describe('a family of checks', () => {
  const registry = textOf('src/analysis/rules/registry.ts');

  it.each(foldersIn('src/analysis/rules'))('%s: its fixtures, its checks in the list, its heading there', (family) => {
    const own = rules.filter(({ code }) => code.startsWith(`${family}/`));
    expect(
      missing(
        [own.length > 0, `no check of ${family} is listed in src/analysis/rules/registry.ts`],
        [
          foldersIn('tests/fixtures/rules').includes(family),
          `tests/fixtures/rules/${family}/<slug> with ok.tub and bad.tub is missing`,
        ],
        [
          new RegExp(`^  // ${family}$`, 'm').test(registry),
          `the heading "// ${family}" is missing in src/analysis/rules/registry.ts`,
        ],
        ...own.map(
          ({ code }) =>
            [
              !(code in languageFindings),
              `${code} is taken: src/language/findings has a finding of that name`,
            ] as const,
        ),
      ),
    ).toEqual([]);
  });

  it('has no fixtures without a check', () => {
    const codes = foldersIn('tests/fixtures/rules').flatMap((family) =>
      foldersIn(`tests/fixtures/rules/${family}`).map((slug) => `${family}/${slug}`),
    );
    expect(codes.filter((code) => !rules.some((rule) => rule.code === code))).toEqual([]);
  });
});

describe('a section of the report', () => {
  const folder = 'src/analysis/report';
  const sources = filesIn(folder).filter((file) => file !== `${folder}/report.ts`);
  const composed = textOf(`${folder}/report.ts`);
  const words = [composed, ...sources.filter((file) => file.endsWith('-text.ts')).map(textOf)].join('\n');
  const schema = textOf(`${folder}/report.schema.json`);
  const makers = sources.flatMap((file) =>
    [...textOf(file).matchAll(/^export const (report\w+) = \(\{? ?.*[sS]tages/gm)].map(([, name]) => ({ file, name })),
  );
  const columns = sources.flatMap((file) =>
    [...textOf(file).matchAll(/^export const (\w+_COLUMNS)\b/gm)].map(([, name]) => ({ file, name })),
  );
  /** Where a table is told in fewer places, and why. */
  const NOT_TOLD: Readonly<Record<string, { readonly places: readonly string[]; readonly why: string }>> = {
    LEAK_COLUMNS: { places: ['list', 'paper'], why: 'leaks are mended, not bought or cut, and each is a finding' },
    SLOPE_COLUMNS: {
      places: ['list', 'paper'],
      why: 'falls are judged, not made: each one that is short is a finding',
    },
    BOW_COLUMNS: { places: ['list', 'paper'], why: 'as slopes; paper has them among all other numbers' },
    SPLASH_COLUMNS: { places: ['list', 'paper'], why: 'as slopes; paper has them among all other numbers' },
    CREASE_COLUMNS: { places: ['list', 'paper'], why: 'as slopes' },
    FLOW_END_COLUMNS: { places: ['list', 'paper'], why: 'as slopes' },
    OUTLET_COLUMNS: { places: ['list', 'paper'], why: 'as slopes' },
    CHAMBER_COLUMNS: { places: ['list', 'paper'], why: 'as slopes' },
    FACE_JOINT_COLUMNS: { places: ['list'], why: 'what they are bolted with is in the list of hardware' },
    PLAY_COLUMNS: { places: ['list'], why: 'as clear distances' },
    WAY_COLUMNS: { places: ['list'], why: 'as clear distances' },
    CLEAR_COLUMNS: { places: ['list'], why: 'distances are checked on the spot, not bought or cut' },
    MOUNTING_COLUMNS: { places: ['list', 'paper'], why: 'what is cut there is on its template, to be worked from' },
    CHAMBER_FILL_COLUMNS: { places: ['list'], why: 'a test is done on paper, not bought or cut' },
    PUMP_COLUMNS: { places: ['list', 'paper'], why: 'as slopes; told in a sentence on paper' },
    TANK_COLUMNS: { places: ['list', 'paper'], why: 'as slopes' },
    POOL_COLUMNS: { places: ['list', 'paper'], why: 'as leaks' },
    STROKE_COLUMNS: { places: ['terminal', 'list'], why: 'a stroke is told in a sentence, made from the same row' },
    WORK_COLUMNS: { places: ['terminal', 'list'], why: 'a job is reckoned on its paper' },
    LEG_COLUMNS: { places: ['terminal', 'list'], why: 'what is measured at the bench is written down on paper' },
    PROFILE_COLUMNS: { places: ['terminal', 'list'], why: 'as legs' },
    ASSEMBLY_COLUMNS: { places: ['terminal', 'list'], why: 'a step is told by its picture, and ticked off' },
    SPOT_ORDER_COLUMNS: { places: ['terminal', 'list'], why: 'as assembly' },
    WELD_COLUMNS: { places: ['terminal', 'list'], why: 'as assembly' },
    FLAT_BEND_COLUMNS: { places: ['terminal', 'list'], why: 'these list the bends of the tub, by BEND_COLUMNS' },
    TAPED_POINT_COLUMNS: {
      places: ['list', 'paper'],
      why: 'what is there is not made; on paper among all other numbers',
    },
    TAPED_MEASURE_COLUMNS: { places: ['list', 'paper'], why: 'as the points' },
    MADE_BEND_COLUMNS: { places: ['list'], why: 'the text states what was read' },
    MADE_PANEL_COLUMNS: { places: ['list'], why: 'as what was read' },
    MADE_GAP_COLUMNS: { places: ['list'], why: 'as what was read' },
    MADE_LEARNED_COLUMNS: { places: ['list'], why: 'as what was read' },
    MADE_CORRECTION_COLUMNS: { places: ['list'], why: 'as what was read' },
    BEND_COLUMNS: { places: ['paper'], why: 'paper lists the bend lines of each flat, by FLAT_BEND_COLUMNS' },
  };

  it('is found', () => {
    expect(makers.map(({ name }) => name)).toEqual(expect.arrayContaining(['reportParts', 'reportWater']));
    expect(columns.length).toBeGreaterThanOrEqual(5);
  });

  it.each(makers)('$name is part of the report', ({ file, name }) => {
    const callers = [`${folder}/report.ts`, ...sources.filter((other) => other !== file)].filter((other) =>
      new RegExp(`\\b${name}\\(`).test(textOf(other)),
    );
    expect(missing([callers.length > 0, `${file}: call ${name} in ${folder}/report.ts`])).toEqual([]);
  });

  it.each(columns)('$name are told on the terminal, in a list and on paper', ({ name }) => {
    const { places } = NOT_TOLD[name] ?? { places: [] };
    const lacks = (place: string, text: string): boolean => !places.includes(place) && !text.includes(name);
    expect(
      missing(
        [!lacks('terminal', words), `a section of reportText in ${folder}/report.ts is missing`],
        [
          !lacks('list', textOf('src/analysis/export/lists/csv.ts')),
          'a list in src/analysis/export/lists/csv.ts is missing',
        ],
        [
          !lacks('paper', allText('src/analysis/export/traveller')),
          'a table in src/analysis/export/traveller/sections is missing',
        ],
      ),
    ).toEqual([]);
  });

  it('is in the published form', () => {
    const declared = [...composed.matchAll(/^ {2}readonly (\w+):/gm)].map(([, key]) => key);
    const { properties, required } = JSON.parse(schema) as { properties: object; required: string[] };
    const lacking = declared.filter((key) => !(key in properties) || !required.includes(key));
    expect(lacking, 'npm run schema').toEqual([]);
  });
});

describe('an exporter', () => {
  const makers = filesIn('src/analysis/export')
    .filter((file) => !file.endsWith('/exporter.ts') && !file.endsWith('/registry.ts'))
    .flatMap((file) =>
      [...textOf(file).matchAll(/^export (?:async )?function\* (\w+Files)\b/gm)].map(([, name]) => ({ file, name })),
    );
  const manual = textOf('src/language/manual/pages/command-line.md');
  const tests = allText('tests');

  it.each(makers)('$name is listed', ({ file, name }) => {
    const listed = textOf('src/analysis/export/registry.ts').includes(`.${name} }`);
    expect(missing([listed, `${file}: a line in src/analysis/export/registry.ts is missing`])).toEqual([]);
  });

  it.each(exportFormats)('%s: a maker, names that are known again, a word in the manual, a test', (format) => {
    const reads = new RegExp(
      `\\b${format}Files\\b|['"]--${format}['"]|exporters\\.find\\([^)]*'${format}'|'${format}'`,
    );
    expect(
      missing(
        [
          nodeExporters.filter((each) => each.format === format).length === 1,
          'one line in src/analysis/export/registry.ts is missing',
        ],
        [
          fileNamesOf('A', [format]).source !== '^A(undefined)$',
          'the endings of its names in src/analysis/export/file-names.ts are missing',
        ],
        [
          new RegExp(`--${format}\\b`).test(manual),
          `--${format} in src/language/manual/pages/command-line.md is missing`,
        ],
        [reads.test(tests), 'a test that reads its files is missing under tests'],
      ),
    ).toEqual([]);
  });

  it('is no other than the formats that can be named', () => {
    expect(nodeExporters.map(({ format }) => format).sort()).toEqual([...exportFormats].sort());
  });
});

describe('an item of the preview', () => {
  const isOfItems = (file: string): boolean => file.endsWith('-items.ts');
  const items = filesIn('src/analysis/scene').filter(isOfItems).map(textOf).join('\n');
  const union = items.match(/export type SceneItem =([^;]*);/)?.[1] ?? '';
  const kinds = [
    ...items.matchAll(/^export interface (\w+)[^{]*\{\n(?:(?!\}).*\n)*? {2}readonly kind: '([\w-]+)';/gm),
  ].map(([, type, kind]) => ({ type, kind }));
  const scenes = filesIn('src/analysis/scene')
    .filter((file) => !isOfItems(file))
    .map(textOf)
    .join('\n');
  const webview = allText('src/extension/webview');
  /** Words stand above the picture, not in it. */
  const NOT_DRAWN = ['note'];

  it('is found', () => {
    expect(kinds.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['flat-part', 'water-spot', 'bend-row', 'hours-line']),
    );
  });

  it.each(kinds)('$kind: made by a scene, sent, drawn, and told in words', ({ type, kind }) => {
    const isNote = NOT_DRAWN.includes(kind);
    const declared = items.slice(items.indexOf(`export interface ${type}`)).split('\n}')[0];
    expect(
      missing(
        [
          new RegExp(`\\b${type}\\b`).test(union),
          `${type} in SceneItem of src/analysis/scene/scene-items.ts is missing`,
        ],
        [scenes.includes(`kind: '${kind}'`), `what makes it, in a file of src/analysis/scene, is missing`],
        [
          new RegExp(`kind [!=]== '${kind}'`).test(webview),
          `what draws it, in the file of its view under src/extension/webview, is missing`,
        ],
        [
          isNote || declared.includes('extends ToldItem') || declared.includes('told:'),
          `${type} has no words: extend ToldItem, of which the text table of its view is made`,
        ],
      ),
    ).toEqual([]);
  });
});
