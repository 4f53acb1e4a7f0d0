// Makes the packages that are published beside the extension: the command line and the core as a library. Each is bundled, needs
// no other package, and is a few files. Usage: node scripts/packages.mjs [FOLDER]   (dist/packages unless given; after a build)
import { build } from 'esbuild';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { noticesOf, packagesIn } from './notices.mjs';
import { typeOf } from './schema-types.mjs';

const root = path.dirname(import.meta.dirname);
const at = (...parts) => path.join(root, ...parts);
const target = path.resolve(process.argv[2] ?? at('dist', 'packages'));

const own = JSON.parse(readFileSync(at('package.json'), 'utf8'));
const jsonOf = (name) => JSON.parse(readFileSync(at(name), 'utf8'));

const begin = (name) => {
  const folder = path.join(target, name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  cpSync(at('LICENSE'), path.join(folder, 'LICENSE'));
  return (file, text) => writeFileSync(path.join(folder, file), text);
};

const manifestOf = (rest) =>
  `${JSON.stringify({ version: own.version, license: own.license, engines: { node: own.engines.node }, ...rest }, null, 2)}\n`;

/** What the command line reads beside itself: the pages of `explain`, fonts of papers, schemas of what it prints. */
const CLI_FILES = ['cli.cjs', 'pdf-writer.cjs', 'nest-worker.cjs', 'fonts', 'schemas', 'THIRD-PARTY-NOTICES.txt'];

/** The pages of all findings by their code, in one file. */
const pagesOfFindings = () => {
  const folder = at('dist', 'pages');
  const names = readdirSync(folder, { recursive: true }).filter(
    (name) => name.endsWith('.md') && !name.startsWith('manual'),
  );
  const pages = names.map((name) => [
    name.replaceAll(path.sep, '/').replace(/\.md$/, ''),
    readFileSync(path.join(folder, name), 'utf8'),
  ]);
  return JSON.stringify(Object.fromEntries(pages.sort(([a], [b]) => (a < b ? -1 : 1))));
};

/** A page of the manual without what leads to pages that a package does not hold. */
const alone = (page) => page.replace(/\[([^\]]+)\]\((?!https?:)[^)]*\)/g, '$1');

const makeCli = () => {
  const write = begin('cli');
  for (const file of CLI_FILES) {
    if (!existsSync(at('dist', file))) throw new Error(`dist/${file} is missing: npm run build`);
    cpSync(at('dist', file), path.join(target, 'cli', file), { recursive: true });
  }
  write('README.md', alone(readFileSync(at('src/language/manual/pages/command-line.md'), 'utf8')));
  write('pages.json', pagesOfFindings());
  write(
    'package.json',
    manifestOf({
      name: 'tubwright-cli',
      description: 'Checks, reports and exports watertight sheet-metal tubs written in the tub language.',
      bin: { tubwright: 'cli.cjs' },
      files: [...CLI_FILES, 'pages.json'],
    }),
  );
};

const TYPES = (
  formats,
) => `/** Tubwright as a library: a text in, findings, the report and files out. Numbers carry their unit in the name. */
export interface ReadOptions {
  /** Name of the file that the text stands in, \`main.tub\` unless given: findings name it. */
  readonly name?: string;
  /** Other files, by the path that \`use\` or \`from\` gives. */
  readonly files?: Readonly<Record<string, string>>;
  /** Only this variant of the text. */
  readonly variant?: string;
}

export interface MakeOptions {
  readonly paper?: 'A4' | 'Letter';
  readonly units?: 'metric' | 'inch';
  /** Places tried for each piece to tighten the nest; 0: as first laid. */
  readonly nestTries?: number;
  /** Files are refused of a tub with errors unless this says otherwise. */
  readonly withErrors?: boolean;
}

export interface MadeFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

export type Format = ${formats.map((format) => `'${format}'`).join(' | ')};

export declare const formats: readonly Format[];

export interface TubRead {
  readonly name: string;
  readonly findings: readonly Finding[];
  /** Worked out when it is first asked for; undefined where the text describes no tub. */
  readonly report: () => Report | undefined;
  /** Rejects with one sentence where the text describes no tub, or has errors. */
  readonly make: (formats: readonly Format[], options?: MakeOptions) => Promise<readonly MadeFile[]>;
}

/** Evaluates a text with the files that it uses, and runs every check. Throws where it has no such variant. */
export declare const readTub: (text: string, options?: ReadOptions) => TubRead;
`;

const makeCore = async () => {
  const write = begin('core');
  const { metafile } = await build({
    entryPoints: [at('src/language/hosts/library.ts')],
    outfile: path.join(target, 'core', 'index.js'),
    bundle: true,
    minify: true,
    format: 'esm',
    platform: 'browser',
    mainFields: ['browser', 'module', 'main'],
    define: { global: 'globalThis' },
    target: 'es2022',
    legalComments: 'none',
    metafile: true,
    logLevel: 'warning',
    absWorkingDir: root,
  });
  const { formats } = await import(path.join(target, 'core', 'index.js'));
  const findings = jsonOf('src/language/cli/check.schema.json').properties.files.items.properties.findings;
  write(
    'index.d.ts',
    [
      TYPES(formats),
      `export type Finding = ${typeOf(findings.items)};\n`,
      `export type Report = ${typeOf(jsonOf('src/analysis/report/report.schema.json'))};\n`,
    ].join('\n'),
  );
  write('THIRD-PARTY-NOTICES.txt', noticesOf(packagesIn([metafile]).map((folder) => at(folder))));
  write('README.md', alone(readFileSync(at('src/language/manual/pages/library.md'), 'utf8')));
  write(
    'package.json',
    manifestOf({
      name: 'tubwright-core',
      description: 'The tub language as a library: findings, the report and drawings of watertight sheet-metal tubs.',
      type: 'module',
      exports: { '.': { types: './index.d.ts', default: './index.js' } },
      types: './index.d.ts',
      sideEffects: false,
      files: ['index.js', 'index.d.ts', 'THIRD-PARTY-NOTICES.txt'],
    }),
  );
};

makeCli();
await makeCore();
