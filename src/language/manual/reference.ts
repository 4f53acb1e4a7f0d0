/**
 * The part of the manual that is made from what the program itself goes by, so that it cannot be stale: words, units, functions,
 * gauges, grades, limits, layers, fields of JSON, checks.
 */
import { fastenerHole, fastenerSize, fastenerThreads } from '../../analysis/material/fastener-holes.js';
import { gaugeSeriesOf } from '../../analysis/material/gauges.js';
import { gradesOf } from '../../analysis/material/grades.js';
import { minimumRadiusOf } from '../../analysis/material/minimum-radius.js';
import { propertiesOf } from '../../analysis/material/properties.js';
import { RIVETS } from '../../analysis/material/rivets.js';
import { drawingLayers } from '../../analysis/export/flat/flat-drawing.js';
import { limits, type Limit } from '../../analysis/model/limits.js';
import type { Material } from '../../analysis/model/tub.js';
import { rules } from '../../analysis/rules/registry.js';
import { languageFindings } from '../findings/catalogue.js';
import { snippets } from '../lsp/completion/snippets.js';
import { functionForms } from '../lsp/functions.js';
import { formWithExamples } from '../lsp/signature-help.js';
import { allMeanings, wordMeaning } from '../lsp/word-meanings.js';
import { units } from '../lower/values/units.js';
import { STATEMENT_WORDS } from '../parser/words.js';
import { fieldsOf, type JsonSchema } from './json-fields.js';

/** A page of the manual: where it lies below the manual, and what it says as Markdown. */
export interface ManualPage {
  readonly path: string;
  readonly text: string;
}

export interface ReferenceSources {
  /** `src/language/tub.langium`, whose comments say what each form means. */
  readonly grammar: string;
  /** The page of a check by its code. */
  readonly checkPage: (code: string) => string;
  /** By the command that prints it. */
  readonly schemas: Readonly<Record<string, JsonSchema>>;
}

export const referencePages = ({ grammar, schemas, checkPage }: ReferenceSources): readonly ManualPage[] => [
  { path: 'statements.md', text: statementsPage(grammar) },
  { path: 'words.md', text: wordsPage() },
  { path: 'units.md', text: unitsPage() },
  { path: 'functions.md', text: functionsPage() },
  { path: 'metals.md', text: metalsPage() },
  { path: 'fasteners.md', text: fastenersPage() },
  { path: 'limits.md', text: limitsPage() },
  { path: 'drawings.md', text: drawingsPage() },
  { path: 'json.md', text: jsonPage(schemas) },
  { path: 'checks.md', text: checksPage(checkPage) },
];

const page = (title: string, ...blocks: readonly string[]): string => `# ${title}\n\n${blocks.join('\n\n')}\n`;

const table = (heads: readonly string[], rows: readonly (readonly string[])[]): string =>
  [heads, heads.map(() => '---'), ...rows].map((row) => `| ${row.map(cell).join(' | ')} |`).join('\n');

const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

const code = (text: string): string => `\`${text}\``;

/** What the comments of the grammar say of each form, in its order: `sheet skin = …`: a kind of sheet … */
const formsIn = (grammar: string): readonly { readonly rule: string; readonly says: string }[] =>
  [...grammar.matchAll(/\/\*\*([\s\S]*?)\*\/\s*(\w+)[^:;]*:/g)].map(([, comment, rule]) => ({
    rule,
    says: comment
      .replaceAll(/^\s*\*\s?/gm, '')
      .replaceAll(/\s+/g, ' ')
      .trim(),
  }));

const statementsPage = (grammar: string): string => {
  const forms = formsIn(grammar).filter(({ says }) => says.includes('`'));
  return page(
    'Statements',
    'A text is a list of statements; their order does not matter. Each begins with its word. Names are your own.',
    ...STATEMENT_WORDS.map((word) => statementText(word)),
    '## Parts of statements',
    ...forms
      .filter(({ says }) => !STATEMENT_WORDS.some((word) => says.startsWith(`\`${word} `)))
      .map(({ says }) => `- ${says}`),
    '## As the grammar says it',
    ...forms.map(({ says }) => `- ${says}`),
  );
};

const statementText = (word: string): string => {
  const forms = snippets.filter((snippet) => snippet.word === word).map(({ body }) => formWithExamples(body));
  return [
    `## ${word}`,
    wordMeaning(word) ?? '',
    ...(forms.length > 0 ? [`\`\`\`tub\n${forms.join('\n\n')}\n\`\`\``] : []),
  ]
    .filter((part) => part !== '')
    .join('\n\n');
};

const wordsPage = (): string =>
  page(
    'Words',
    'What each word of the language means; the same stands under the pointer in the editor. What is yours gets a name of your own: letters of any script, digits and `_`, a letter first. Words that begin a statement are no names.',
    table(
      ['Word', 'Meaning'],
      [...allMeanings()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([word, meaning]) => [code(word), meaning]),
    ),
  );

const KINDS: readonly (readonly [kind: string, unit: string])[] = [
  ['length', 'mm'],
  ['angle', 'deg'],
  ['number', '%'],
  ['volume', 'L'],
  ['flow', 'L/min'],
  ['force', 'N'],
  ['mass', 'kg'],
  ['time', 'sec'],
  ['speed', 'm/min'],
  ['viscosity', 'cSt'],
  ['density', 'kg/m3'],
  ['surface tension', 'mN/m'],
];

const unitsPage = (): string =>
  page(
    'Units and fractions',
    'A quantity is a number with its unit: `12.5 mm`, `3 deg`, `20 L/min`. With `units mm` or `units in` at the top of a file a bare number there may stand for a length; everything else always says its unit.',
    'Fractions of an inch are written as on a tape: `2 1/2 in`, `3/8 in`, and without the unit below `units in`. Decimals have a point. Measures are added with `+`, of whatever unit: `1 ft + 2 in`, `20 mm + 1/16 in`. A thickness may be a gauge: `18 ga`, by the [table of its metal](metals.md).',
    table(
      ['Unit', 'Of', 'Is'],
      Object.entries(units).map(([unit, { powers, factor, per = 1 }]) => {
        const like = KINDS.find(([, base]) => String(units[base]?.powers) === String(powers));
        const base = like && units[like[1]];
        const size = base ? (factor / per / base.factor) * (base.per ?? 1) : undefined;
        return [code(unit), like?.[0] ?? '', size === undefined ? '' : `${plainNumber(size)} ${like![1]}`];
      }),
    ),
  );

const plainNumber = (value: number): string => String(Number(value.toPrecision(10)));

const functionsPage = (): string =>
  page(
    'Functions',
    'In any expression, beside `+`, `-`, `*`, `/` and brackets. A point is `(x, y, z)`, a way is written alike and is added to a point: `A + (0, 10, -4)`; both are multiplied and divided by numbers without a unit: `A + (0, 20, -4) * 3`.',
    table(
      ['Call', 'Gives'],
      Object.entries(functionForms).map(([name, { parameters, isRepeated, gives }]) => [
        code(`${name}(${parameters.join(', ')}${isRepeated ? ', …' : ''})`),
        gives,
      ]),
    ),
  );

const METALS: readonly Material[] = ['steel', 'galvanized', 'stainless', 'aluminium', 'copper', 'brass'];

const metalsPage = (): string =>
  page(
    'Metals, grades and gauges',
    'Where a sheet names no grade, the first of its metal is taken. A strength can be stated (`tensile 500`, in MPa), and a test bend (`coupon`) goes before every table.',
    ...METALS.map(metalText),
  );

const metalText = (material: Material): string => {
  const names = gradesOf(material);
  const rows = (names.length === 0 ? [undefined] : names).map((grade) => {
    const { grade: told, densityKgM3, tensileMPa, yieldMPa } = propertiesOf({ material, grade });
    const least = [1, 2, 3].map((thickness) =>
      plainNumber(minimumRadiusOf({ metal: { material, grade }, thickness, angle: Math.PI / 2, grain: 'any' }).value),
    );
    return [told, `${densityKgM3.value}`, `${yieldMPa.value}`, `${tensileMPa.value}`, least.join(', ')];
  });
  const { tensileMPa, densityKgM3 } = propertiesOf({ material });
  const radius = minimumRadiusOf({ metal: { material }, thickness: 1, angle: Math.PI / 2, grain: 'any' });
  const { name, source, inches } = gaugeSeriesOf(material);
  return [
    `## ${material}`,
    table(['Grade', 'Density, kg/m3', 'Yield, MPa', 'Strength, MPa', 'Least radius of 1, 2 and 3 mm'], rows),
    `Sources: strength ${tensileMPa.source}; density ${densityKgM3.source}; radius ${radius.source}.`,
    `Gauges: ${name}. ${source}.`,
    table(
      ['Gauge', 'inch', 'mm'],
      [...inches].map(([gauge, inch]) => [`${gauge}`, `${inch}`, (inch * 25.4).toFixed(3)]),
    ),
  ].join('\n\n');
};

const fastenersPage = (): string =>
  page(
    'Holes of screws, rivet nuts and rivets',
    'What is cut where `screw`, `rivetnut`, `bolted` or `rivets` states no diameter of its own, in mm. Bodies differ by maker: the data sheet of the part in hand governs.',
    table(
      ['Thread', 'Hole of a screw', 'Hole of a rivet nut', 'Sheet that its shortest body grips'],
      fastenerThreads('screw').map((thread) => {
        const nut = fastenerSize('rivetnut', thread);
        const grip = nut?.grip ? `${nut.grip[0]} to ${nut.grip[1]}` : '';
        return [`M${thread}`, `${fastenerHole('screw', thread)}`, nut ? `${nut.hole}` : 'none', grip];
      }),
    ),
    'Sources: screws, clearance holes of the medium series of ISO 273, as reproduced by a supplier; rivet nuts from memory, hexagonal ones the same from side to side.',
    table(
      ['Blind rivet', 'Hole', 'Grips up to'],
      RIVETS.map(({ diameter, hole, grips }) => [
        `${diameter}`,
        `${hole}`,
        grips.map((grip) => plainNumber(Number(grip.toFixed(1)))).join(', '),
      ]),
    ),
    'Sources: limits of US Army TM 10-5410-221-14/1 and IFI-114; of 4.8 from memory.',
  );

const limitsPage = (): string =>
  page(
    'Limits',
    'Every quantity and count ends somewhere, so that no short text can hold up the editor. A finding at the value names the limit.',
    table(
      ['Limit of', 'From', 'To', 'Why'],
      Object.values(limits as Readonly<Record<string, Limit>>).map(({ name, unit, atLeast, atMost, reason }) => [
        name,
        atLeast === undefined ? '' : `${atLeast} ${unit}`.trim(),
        `${atMost} ${unit}`.trim(),
        reason,
      ]),
    ),
  );

const drawingsPage = (): string =>
  page(
    'Layers of the drawings',
    'Of DXF and SVG alike, in the order in which they are worked. One unit is one millimetre; a line of 100 mm shows the scale. Outlines and holes are the edges of the finished part: half the kerf beside them is left to the program of the cutter. The words of `PEN_LETTERS` are in `READ_TEXT` again for who reads the file.',
    table(
      ['Layer', 'Use'],
      drawingLayers.map(({ name, use }) => [code(name), use]),
    ),
  );

const jsonPage = (schemas: ReferenceSources['schemas']): string =>
  page(
    'JSON of the command line',
    'Every number names its unit in its key; `null` is what could not be worked out. `version` grows when a field is taken away or comes to mean something else; new fields may come at any time.',
    ...Object.entries(schemas).map(([command, schema]) =>
      [
        `## ${command}`,
        table(
          ['Field', 'Is', 'Meaning'],
          fieldsOf(schema).map(({ path, type, meaning }) => [code(path), type, meaning]),
        ),
      ].join('\n\n'),
    ),
  );

/** First paragraph under "What it reports", as one line. */
const reportsOf = (text: string): string => {
  const [, section = ''] = /## What it reports\n+([\s\S]*?)(?:\n\n|$)/.exec(text) ?? [];
  return section.replace(/\s+/g, ' ').trim();
};

const checksPage = (pageOf: ReferenceSources['checkPage']): string => {
  const severityOf = new Map<string, string>([
    ...rules.map(({ code: name, severity }) => [name, severity] as const),
    ...Object.entries(languageFindings),
  ]);
  const all = [...severityOf.keys()].sort();
  const families = [...new Set(all.map((name) => name.split('/')[0]))];
  const rowOf = (name: string): readonly string[] => [
    `[${name}](../${name}.md)`,
    severityOf.get(name) ?? '',
    reportsOf(pageOf(name)),
  ];
  return page(
    'Checks',
    'Every finding has its page: what it reports, why, formula and source, a wrong and a right text, its limits.',
    ...families.flatMap((family) => [
      `## ${family}`,
      table(['check', 'severity', 'what it reports'], all.filter((name) => name.startsWith(`${family}/`)).map(rowOf)),
    ]),
  );
};
