// Bundles the benches and runs them in a fresh process.
// Usage: node scripts/bench.mjs [bench file without ending ...] [what the bench takes ...]
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { build } from 'esbuild';

const root = path.dirname(import.meta.dirname);
const words = process.argv.length > 2 ? process.argv.slice(2) : ['main', 'latency'];
const isBench = (word) => existsSync(path.join(root, 'bench', `${word}.ts`));
const names = words.filter(isBench);
const rest = words.filter((word) => !isBench(word));
const folder = mkdtempSync(path.join(tmpdir(), 'tubwright-bench-'));
try {
  for (const name of names) {
    const outfile = path.join(folder, `${name}.mjs`);
    await build({
      entryPoints: [path.join(root, 'bench', `${name}.ts`)],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      target: 'node20',
      logLevel: 'warning',
      absWorkingDir: root,
      define: { PROJECT_ROOT: JSON.stringify(root) },
      banner: { js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);" },
    });
    const { status } = spawnSync(process.execPath, [outfile, ...rest], { stdio: 'inherit', cwd: root });
    if (status !== 0) process.exitCode = 1;
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
