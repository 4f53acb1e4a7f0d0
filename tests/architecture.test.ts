/** The invariants of DEVELOPERS.md that can be held by reading the source: who may import whom, and what goes with a check. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { rules } from '../src/analysis/rules/registry.js';

const root = join(import.meta.dirname, '..');
/** Sources are read once, whoever asks. */
const once = <T>(make: (name: string) => T): ((name: string) => T) => {
  const known = new Map<string, T>();
  return (name) => {
    const made = known.get(name) ?? make(name);
    known.set(name, made);
    return made;
  };
};

const filesIn = once((folder): readonly string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(folder, name))
    .filter((name) => !name.includes('generated'))
    .sort(),
);
const textOf = once((file) => readFileSync(join(root, file), 'utf8'));

interface Import {
  readonly file: string;
  /** A package, or a path from the project's root without its ending. */
  readonly target: string;
  readonly typesOnly: boolean;
}

const importsOf = once((file): readonly Import[] => {
  const found = textOf(file).matchAll(
    /^(?:import|export)\s+(type\s+)?([^;'"]*?\sfrom\s+)?['"]([^'"]+)['"]|import\(['"]([^'"]+)['"]\)/gm,
  );
  return [...found].map(([, type, names = '', fixed, dynamic]) => {
    const written = fixed ?? dynamic;
    const target = written.startsWith('.') ? normalize(join(dirname(file), written)).replace(/\.js$/, '') : written;
    const inner = names
      .match(/\{([^}]*)\}/)?.[1]
      .split(',')
      .map((name) => name.trim())
      .filter((name) => name !== '');
    const everyNameIsType = inner !== undefined && inner.length > 0 && inner.every((name) => name.startsWith('type '));
    return { file, target, typesOnly: type !== undefined || everyNameIsType };
  });
});

const importsIn = (folder: string): Import[] => filesIn(folder).flatMap(importsOf);
const shown = ({ file, target }: Import): string => `${file} imports ${target}`;

/** The folders in which the ways of two files part; the same folder twice when one of them lies beside the other's folder. */
const roomsOf = (file: string, target: string): readonly [string, string] => {
  const [a, b] = [file.split('/'), target.split('/')];
  let common = 0;
  while (common < a.length - 1 && common < b.length - 1 && a[common] === b[common]) common++;
  const inFolders = common < a.length - 1 && common < b.length - 1;
  return inFolders
    ? [a.slice(0, common + 1).join('/'), b.slice(0, common + 1).join('/')]
    : [a.slice(0, common).join('/'), a.slice(0, common).join('/')];
};

describe('invariants', () => {
  it('1. analysis imports no language, editor or system, and reads no clock, locale or chance', () => {
    const foreign = importsIn('src/analysis').filter(
      ({ target }) =>
        /^(langium|vscode|node:|fs$|path$|os$|child_process$)/.test(target) ||
        /^src\/(language|extension)/.test(target),
    );
    expect(foreign.map(shown)).toEqual([]);
    const impure = filesIn('src/analysis').filter((file) =>
      /\bDate\.now\b|\bnew Date\b|\bMath\.random\b|\bIntl\.|\.toLocale\w+\(|\.localeCompare\(|\bperformance\.now\b|\bprocess\./.test(
        textOf(file),
      ),
    );
    expect(impure).toEqual([]);
  });

  it.each(['src/analysis', 'src/language'])('files of %s import one another one way, types included', (top) => {
    const targets = new Map(
      filesIn(top).map((file) => [file.replace(/\.ts$/, ''), importsOf(file).map(({ target }) => target)]),
    );
    const done = new Set<string>();
    const circles: string[] = [];
    const visit = (file: string, way: readonly string[]): void => {
      if (way.includes(file)) circles.push([...way.slice(way.indexOf(file)), file].join(' imports '));
      if (done.has(file) || way.includes(file)) return;
      for (const target of targets.get(file) ?? []) visit(target, [...way, file]);
      done.add(file);
    };
    for (const file of targets.keys()) visit(file, []);
    expect(circles).toEqual([]);
  });

  it('2. the language never imports the editor', () => {
    const foreign = importsIn('src/language').filter(
      ({ target }) => /^vscode$|^vscode-languageclient/.test(target) || target.startsWith('src/extension'),
    );
    expect(foreign.map(shown)).toEqual([]);
  });

  it('3. the extension takes only the protocol from the language, and nothing but types from the analysis', () => {
    const foreign = importsIn('src/extension').filter(
      ({ target, typesOnly }) =>
        (target.startsWith('src/language') && target !== 'src/language/protocol') ||
        (target.startsWith('src/analysis') && !typesOnly) ||
        target.startsWith('langium'),
    );
    expect(foreign.map(shown)).toEqual([]);
    const behind = importsOf('src/language/protocol.ts').filter(({ typesOnly }) => !typesOnly);
    expect(behind.flatMap(({ target }) => importsOf(`${target}.ts`)).filter(({ typesOnly }) => !typesOnly)).toEqual([]);
  });

  it('a check never imports a check', () => {
    const family = /^src\/analysis\/rules\/[^/]+\/[^/]+$/;
    const foreign = filesIn('src/analysis/rules')
      .filter((file) => family.test(file.replace(/\.ts$/, '')))
      .flatMap(importsOf)
      .filter(({ target }) => family.test(target));
    expect(foreign.map(shown)).toEqual([]);
  });

  /**
   * The floors of the analysis from the ground up, and the rooms within a floor where there is an order among them. An import
   * goes down or stays in its room, types included.
   */
  const FLOORS = [
    'geometry',
    'cache',
    'model',
    'material',
    'shape',
    'built',
    'fold',
    'join',
    'solid',
    'water',
    'seal',
    'making',
    'stages',
    'aim',
    'nest',
    'rules',
    'report',
    'solve',
    'scene',
    'export',
  ];

  it('floors: an import of the analysis goes down or stays on its floor, types included', () => {
    const floorOf = (target: string): number => FLOORS.indexOf(target.split('/')[2]);
    const folders = readdirSync(join(root, 'src/analysis'), { withFileTypes: true });
    expect(folders.map(({ name }) => name).sort()).toEqual([...FLOORS].sort());
    const upward = importsIn('src/analysis')
      .filter(({ target }) => target.startsWith('src/analysis/'))
      .filter(({ file, target }) => floorOf(target) > floorOf(file))
      .map(
        (found) =>
          `${shown(found)}: move what it takes to ${FLOORS[floorOf(found.file)]} or below, or move the file up`,
      );
    expect(upward).toEqual([]);
  });

  it('geometry knows nothing of sheet metal and alone asks the box index library', () => {
    const own = importsIn('src/analysis/geometry').filter(
      ({ target }) => target.startsWith('src/') && !target.startsWith('src/analysis/geometry/'),
    );
    expect(own.map(shown)).toEqual([]);
    const boxes = importsIn('src').filter(
      ({ file, target }) => target === 'flatbush' && !file.startsWith('src/analysis/geometry/'),
    );
    expect(boxes.map(shown)).toEqual([]);
  });

  it('one file of the whole project asks the DXF library, so that its traps are kept in one place', () => {
    const users = importsIn('src').filter(({ target }) => /^dxf-writer(\/|$)/.test(target));
    expect([...new Set(users.map(({ file }) => file))]).toEqual(['src/analysis/export/flat/dxf-drawing.ts']);
  });

  it.each(['src/analysis', 'src/language', 'src/extension'])('no two folders of %s import one another', (top) => {
    const ways = new Map<string, string>();
    for (const found of importsIn(top)) {
      if (!found.target.startsWith('src/') || found.target.includes('generated')) continue;
      const [from, to] = roomsOf(found.file, found.target);
      if (from !== to) ways.set(`${from} ${to}`, shown(found));
    }
    const both = [...ways].filter(([way]) => ways.has(way.split(' ').reverse().join(' '))).map(([, first]) => first);
    expect(both).toEqual([]);
  });

  it('every import of a file of our own ends in .js and finds its file', () => {
    const broken = [...importsIn('src'), ...importsIn('tests')].filter(({ file, target }) => {
      if (!/^(src|tests)\//.test(target) || target.startsWith('src/language/generated')) return false;
      return (
        !existsSync(join(root, `${target}.ts`)) &&
        !existsSync(join(root, `${target}.d.ts`)) &&
        !existsSync(join(root, target)) &&
        file !== ''
      );
    });
    expect(broken.map(shown)).toEqual([]);
  });
});

describe('8. tolerances', () => {
  const TOLERANCES = ['src/analysis/geometry/tolerance.ts', 'src/analysis/model/tolerance.ts'];
  /** Where a small number is none: what a text may state. */
  const NO_TOLERANCES = ['src/analysis/model/limits.ts'];
  const named = TOLERANCES.flatMap((file) =>
    [...textOf(file).matchAll(/^export const (\w+)/gm)].map(([, name]) => name),
  );
  const codeOf = once((file) =>
    textOf(file)
      .replace(/\/\*[\s\S]*?\*\//g, (comment) => comment.replace(/[^\n]/g, ''))
      .replace(/(^|\s)\/\/.*$/gm, '')
      .replace(/'(?:[^'\\\n]|\\.)*'/g, "''"),
  );
  const linesWith = (pattern: RegExp): string[] =>
    [...filesIn('src/analysis'), ...filesIn('src/language')]
      .filter((file) => ![...TOLERANCES, ...NO_TOLERANCES].includes(file))
      .flatMap((file) =>
        codeOf(file)
          .split('\n')
          .flatMap((line, i) => (pattern.test(line) ? [`${file}:${i + 1} ${line.trim()}`] : [])),
      );

  it('are stated in a tolerance file, with a meaning, and nowhere else', () => {
    // 1e-6 in any place, a decimal below a thousandth, or one of up to a thousandth that is compared with.
    const literal = /\b\d+(?:\.\d+)?e-\d|\b0?\.000\d|[<>]=?\s*-?0?\.00\d/;
    expect(linesWith(literal), `give it a name and a meaning in ${TOLERANCES.join(' or ')}`).toEqual([]);
  });

  it('have one name each: none is called otherwise where it is used', () => {
    const alias = new RegExp(
      `^(?:export )?const \\w+ = (?:${named.join('|')});|const SAME_\\w+ =|\\b(?:${named.join('|')}) as \\w`,
    );
    expect(linesWith(alias), 'use the name itself, or state a meaning of its own in a tolerance file').toEqual([]);
  });

  it('each say their unit or what they are a share of, and are used', () => {
    expect(new Set(named).size).toBe(named.length);
    const all = [...filesIn('src/analysis'), ...filesIn('src/language')].map(textOf).join('\n');
    for (const file of TOLERANCES) {
      const documented = [
        ...textOf(file).matchAll(
          /^\/\*\*(?: |\n \* )(?:mm|mm2|rad|share)\b(?:(?!\*\/)[^])*\*\/\nexport const (\w+)/gim,
        ),
      ];
      const own = named.filter((name) => new RegExp(`export const ${name}\\b`).test(textOf(file)));
      expect(documented.map(([, name]) => name)).toEqual(own);
    }
    expect(named.filter((name) => (all.match(new RegExp(`\\b${name}\\b`, 'g'))?.length ?? 0) < 3)).toEqual([]);
  });
});

describe('10. what goes with every check', () => {
  const ruleFiles = filesIn('src/analysis/rules').filter((file) => /rules\/[^/]+\/[^/]+\.ts$/.test(file));
  const codeOf = (file: string): string =>
    relative('src/analysis/rules', file).replace(/\.ts$/, '').replace(/\\/g, '/');

  it('the registry and the folders name the same checks, none twice', () => {
    const codes = rules.map((rule) => rule.code);
    expect(new Set(codes).size).toBe(codes.length);
    expect([...codes].sort()).toEqual(ruleFiles.map(codeOf).sort());
  });

  const HEADINGS = ['## What it reports', '## Why', '## How', '## Wrong', '## Right', '## Limits', '## Fix'];

  it.each(ruleFiles.map(codeOf))('%s has its page with every heading and its source, and both fixtures', (code) => {
    const page = textOf(`src/analysis/rules/${code}.md`);
    expect(page.startsWith(`# ${code}\n`)).toBe(true);
    expect(page.split('\n').filter((line) => line.startsWith('## '))).toEqual(HEADINGS);
    expect(page).toMatch(/\*\*Source/);
    expect(page.match(/```tub\n/g)?.length).toBeGreaterThanOrEqual(2);
    for (const fixture of ['ok.tub', 'bad.tub'])
      expect(existsSync(join(root, 'tests/fixtures/rules', code, fixture)), fixture).toBe(true);
    expect(textOf(`tests/fixtures/rules/${code}/bad.tub`)).toMatch(new RegExp(`expect(-\\w+)?: ${code}\\b`));
  });
});

describe('writing', () => {
  it('11. what writes files knows a file system only as it is handed in', () => {
    const foreign = importsIn('src/files').filter(({ target }) => !target.startsWith('src/files/'));
    expect(foreign.map(shown)).toEqual([]);
  });
});

describe('pinned tools', () => {
  it('langium is 4.2.1 wherever Node is older than 22: later versions use what it lacks', () => {
    const { version } = JSON.parse(textOf('node_modules/langium/package.json')) as { version: string };
    const major = Number(process.versions.node.split('.')[0]);
    expect(major >= 22 || version === '4.2.1', `langium ${version} on Node ${process.version}`).toBe(true);
    const { dependencies, devDependencies } = JSON.parse(textOf('package.json')) as Record<
      string,
      Record<string, string>
    >;
    expect([dependencies.langium, devDependencies['langium-cli']]).toEqual(['4.2.1', '4.2.1']);
  });

  it('every dependency is pinned exactly', () => {
    const { dependencies, devDependencies } = JSON.parse(textOf('package.json')) as Record<
      string,
      Record<string, string>
    >;
    const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(
      ([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version),
    );
    expect(loose).toEqual([]);
  });

  it('the lock file names no place that a package is fetched from', () => {
    expect(textOf('package-lock.json')).not.toContain('"resolved":');
  });
});
