/**
 * Changes a source in one place after another, and tells which changes no test notices: npm run mutate -- FILE... [--tests TEST...]
 * All changes of a file are written into one translation of it and chosen by number, so that nothing is translated twice. Without
 * `--tests` those are run that are nearest to the file by what they import.
 */
import { spawn } from 'node:child_process';
import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, normalize } from 'node:path';
import { transformSync } from 'esbuild';
import ts from 'typescript';

const MOST_TESTS = 6;
const AT_ONCE = 2;
/** ms. A change that makes a test run on and on is noticed as well. */
const LONGEST = 120_000;
const MUTATED = '.cache/sources-mutated';

const SWAPS = {
  '<': '<=',
  '<=': '<',
  '>': '>=',
  '>=': '>',
  '===': '!==',
  '!==': '===',
  '+': '-',
  '-': '+',
  '*': '/',
  '/': '*',
  '&&': '||',
  '||': '&&',
};
const CALLS = { min: 'max', max: 'min', some: 'every', every: 'some', ceil: 'floor', floor: 'ceil' };

const isText = (node) => ts.isStringLiteralLike(node) || ts.isTemplateExpression(node);

/** Replacements for a node, each with what it is called. */
const changesOf = (node) => {
  if (ts.isBinaryExpression(node)) {
    const sign = node.operatorToken.getText();
    const isSum = sign === '+' && (isText(node.left) || isText(node.right));
    return SWAPS[sign] && !isSum
      ? [[`${sign} ${SWAPS[sign]}`, `${node.left.getText()} ${SWAPS[sign]} ${node.right.getText()}`]]
      : [];
  }
  if (ts.isPrefixUnaryExpression(node) && node.operator === ts.SyntaxKind.ExclamationToken)
    return [['! dropped', node.operand.getText()]];
  if (ts.isPrefixUnaryExpression(node) && node.operator === ts.SyntaxKind.MinusToken)
    return ts.isNumericLiteral(node.operand) ? [] : [['- dropped', node.operand.getText()]];
  if (ts.isNumericLiteral(node)) {
    const isPlace = ts.isElementAccessExpression(node.parent) || node.parent.name === node;
    return isPlace ? [] : [[`${node.text} changed`, Number(node.text) === 0 ? '1' : `(${node.text} * 1.1)`]];
  }
  if (node.kind === ts.SyntaxKind.TrueKeyword) return [['true false', 'false']];
  if (node.kind === ts.SyntaxKind.FalseKeyword) return [['false true', 'true']];
  if (ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression)) {
    const name = node.expression.name.text;
    if (!Object.hasOwn(CALLS, name)) return [];
    const args = node.arguments.map((each) => each.getText()).join(', ');
    return [[`${name} ${CALLS[name]}`, `${node.expression.expression.getText()}.${CALLS[name]}(${args})`]];
  }
  const { parent } = node;
  const isCondition =
    (ts.isConditionalExpression(parent) && parent.condition === node) ||
    (ts.isIfStatement(parent) && parent.expression === node);
  return isCondition ? [['condition turned', `!(${node.getText()})`]] : [];
};

/** The source with every change in it, and the list of them. */
const withChanges = (file) => {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  const changes = [];
  const inside = (node) => {
    let [made, at] = ['', node.getStart()];
    node.forEachChild((child) => {
      made += source.text.slice(at, child.getStart()) + written(child);
      at = child.getEnd();
    });
    return made + source.text.slice(at, node.getEnd());
  };
  const written = (node) => {
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node) || ts.isInterfaceDeclaration(node)) return node.getText();
    let chosen = inside(node);
    for (const [name, other] of changesOf(node)) {
      const { line } = source.getLineAndCharacterOfPosition(node.getStart());
      changes.push({ name, line: line + 1, code: node.getText().replace(/\s+/g, ' ').slice(0, 60) });
      chosen = `(MUTANT === ${changes.length - 1} ? ${other} : ${chosen})`;
    }
    return chosen;
  };
  return { code: `const MUTANT = Number(process.env.TUBWRIGHT_MUTANT);\n${inside(source)}`, changes };
};

/** Who imports a file, directly, of sources and tests. */
const importers = () => {
  const by = new Map();
  for (const top of ['src', 'tests']) {
    for (const name of readdirSync(top, { recursive: true, encoding: 'utf8' })) {
      if (!name.endsWith('.ts')) continue;
      const file = join(top, name);
      for (const [, to] of readFileSync(file, 'utf8').matchAll(/from '(\.[^']+)\.js'/g)) {
        const target = `${normalize(join(dirname(file), to))}.ts`;
        by.set(target, [...(by.get(target) ?? []), file]);
      }
    }
  }
  return by;
};

const nearestTests = (file) => {
  const by = importers();
  const seen = new Set([file]);
  for (const at of seen) for (const next of by.get(at) ?? []) seen.add(next);
  const tests = [...seen].filter((found) => found.endsWith('.test.ts'));
  const isNamed = (test) => readFileSync(test, 'utf8').includes(`/${basename(file, '.ts')}.js'`);
  return [...tests.filter(isNamed), ...tests.filter((test) => !isNamed(test))].slice(0, MOST_TESTS);
};

const fails = (tests, environment) =>
  new Promise((resolve) => {
    const env = { ...process.env, ...environment, VITEST_MAX_WORKERS: '1' };
    const args = ['node_modules/vitest/vitest.mjs', 'run', '--bail', '1', '--reporter=dot', ...tests];
    const run = spawn(process.execPath, args, { env, stdio: 'ignore' });
    const end = setTimeout(() => run.kill(), LONGEST);
    run.on('exit', (status) => {
      clearTimeout(end);
      resolve(status !== 0);
    });
  });

const mutate = async (file, tests) => {
  const { code, changes } = withChanges(file);
  const translated = join(MUTATED, file.replace(/^src\//, '').replace(/\.ts$/, '.js'));
  const before = readFileSync(translated);
  writeFileSync(translated, transformSync(code, { loader: 'ts', format: 'esm', target: 'node20' }).code);
  console.log(`${file}: ${changes.length} changes against ${tests.join(' ')}`);
  const left = [...changes.keys()].reverse();
  const survivors = [];
  const work = async () => {
    for (let i = left.pop(); i !== undefined; i = left.pop())
      if (!(await fails(tests, { TUBWRIGHT_MUTANT: String(i), TUBWRIGHT_SOURCES: MUTATED }))) survivors.push(i);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
  writeFileSync(translated, before);
  for (const i of survivors.sort((a, b) => a - b))
    console.log(`  ${file}:${changes[i].line} ${changes[i].name}: ${changes[i].code}`);
  console.log(`  noticed: ${changes.length - survivors.length} of ${changes.length}`);
};

const args = process.argv.slice(2);
const at = args.indexOf('--tests');
const [files, named] = at < 0 ? [args, []] : [args.slice(0, at), args.slice(at + 1)];
if (files.length === 0) {
  console.error('Usage: npm run mutate -- FILE... [--tests TEST...]');
  process.exit(2);
}
const testsOf = (file) => (named.length > 0 ? named : nearestTests(file));
// As they are: the tests must pass, and it translates the sources.
if (await fails([...new Set(files.flatMap(testsOf))], {}))
  throw new Error('The tests fail before anything is changed.');
rmSync(MUTATED, { recursive: true, force: true });
cpSync('.cache/sources', MUTATED, { recursive: true });
for (const file of files) await mutate(file, testsOf(file));
