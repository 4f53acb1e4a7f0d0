// Runs the oracles (every test file that imports tests/support/cases.ts) with many cases: npm run verify -- --cases N [FILES]
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const usage = 'Usage: npm run verify -- [--cases N] [part of a file name ...]';
const args = process.argv.slice(2);
const at = args.indexOf('--cases');
const [cases] = at >= 0 ? args.splice(at, 2).slice(1) : ['300'];
if (!/^[1-9]\d*$/.test(cases ?? '') || args.some((arg) => arg.startsWith('-'))) {
  console.error(usage);
  process.exit(2);
}

const oracles = readdirSync('tests', { recursive: true })
  .map((file) => join('tests', file).replaceAll('\\', '/'))
  .filter((file) => file.endsWith('.test.ts') && /support\/cases\.js'/.test(readFileSync(file, 'utf8')))
  .filter((file) => args.length === 0 || args.some((part) => file.includes(part)))
  .sort();
if (oracles.length === 0) {
  console.error(`No oracle of that name. ${usage}`);
  process.exit(2);
}

const { status } = spawnSync(
  process.execPath,
  ['node_modules/vitest/vitest.mjs', 'run', '--testTimeout=0', '--reporter=verbose', ...oracles],
  { stdio: 'inherit', env: { ...process.env, TUBWRIGHT_CASES: cases } },
);
process.exit(status ?? 1);
