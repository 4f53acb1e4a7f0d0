// Bundles the fuzzer and runs it. Usage: node scripts/fuzz.mjs [--minutes N] [--seed N] [--workers N] [--kind text|requests|export]
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { build } from 'esbuild';

const root = path.dirname(import.meta.dirname);
const folder = mkdtempSync(path.join(tmpdir(), 'tubwright-fuzz-'));
try {
  await build({
    entryPoints: ['main', 'worker'].map((name) => path.join(root, 'fuzz', `${name}.ts`)),
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    mainFields: ['module', 'main'],
    logLevel: 'warning',
    absWorkingDir: root,
    define: { PROJECT_ROOT: JSON.stringify(root) },
    banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
  });
  const { status } = spawnSync(process.execPath, [path.join(folder, 'main.mjs'), ...process.argv.slice(2)], {
    stdio: 'inherit',
    cwd: root,
  });
  process.exitCode = status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
