// The main job on a sample, as a builder would run it: findings, report, files to cut. Usage: node scripts/demo.mjs [file]
import { spawnSync } from 'node:child_process';
import path from 'node:path';

const root = path.dirname(import.meta.dirname);
const file = process.argv[2] ?? path.join('samples', 'herb-wash-basin.tub');
const out = path.join('out', path.basename(file, '.tub'));

const tubwright = (...words) => {
  console.log(`\n$ tubwright ${words.join(' ')}`);
  return spawnSync(process.execPath, [path.join(root, 'dist', 'cli.cjs'), ...words], { stdio: 'inherit', cwd: root })
    .status;
};

const statuses = [tubwright('check', file), tubwright('report', file), tubwright('export', file, '--out', out)];
process.exitCode = Math.max(...statuses.map((status) => status ?? 2));
