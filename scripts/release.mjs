// Makes all that a release hands out, with checksums: the extension, the command line, the core as a library.
// Usage: node scripts/release.mjs [FOLDER] [--pictures-at URL]   (dist/release unless given)
//   --pictures-at: where the folder of this project is served, so that a gallery shows the pictures of the page.
import { createHash } from 'node:crypto';
import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const root = path.dirname(import.meta.dirname);
const words = process.argv.slice(2);
const mark = words.indexOf('--pictures-at');
const [, pictures] = mark < 0 ? [] : words.splice(mark, 2);
const target = path.resolve(words[0] ?? path.join(root, 'dist', 'release'));
const run = (command, ...args) => execFileSync(command, args, { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] });

const { version } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
if (!readFileSync(path.join(root, 'CHANGELOG.md'), 'utf8').includes(`## [${version}]`)) {
  console.error(`CHANGELOG.md has no heading for ${version}: what it brings is said there first`);
  process.exit(1);
}

rmSync(target, { recursive: true, force: true });
mkdirSync(target, { recursive: true });
run('npm', 'run', '--silent', 'build');
run('node', 'scripts/packages.mjs');
const links =
  pictures === undefined
    ? ['--no-rewrite-relative-links']
    : ['--baseContentUrl', pictures, '--baseImagesUrl', pictures];
run(
  path.join(root, 'node_modules', '.bin', 'vsce'),
  ...['package', '--no-dependencies', '--allow-missing-repository', '--readme-path', 'media/gallery.md', ...links],
  ...['--out', path.join(target, `tubwright-${version}.vsix`)],
);
for (const name of ['cli', 'core'])
  run('npm', 'pack', '--silent', '--pack-destination', target, path.join(root, 'dist', 'packages', name));

const sums = readdirSync(target)
  .sort()
  .map(
    (name) =>
      `${createHash('sha256')
        .update(readFileSync(path.join(target, name)))
        .digest('hex')}  ${name}`,
  );
writeFileSync(path.join(target, 'SHA256SUMS'), `${sums.join('\n')}\n`);
console.log(sums.join('\n'));
