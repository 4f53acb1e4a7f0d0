#!/usr/bin/env bash
# Installs a real VS Code workbench (code-server), a Playwright driver and their few system
# packages, for end-to-end tests in headless Chromium.  Usage: setup-workbench.sh [CACHE_DIR]
# Idempotent.  Needs Node 20 and npm; uses only the npm registry and Debian packages, and
# compiles nothing: every native part comes from a package that ships its binary, or is replaced.
set -euo pipefail

CODE_SERVER_VERSION=4.100.3     # = VS Code 1.100.3; the last series that runs on Node 20
PLAYWRIGHT_VERSION=1.65.1
ARGON2_VERSION=0.41.1           # first series that ships its binaries (0.31 would download or build)
NODE_PTY_BIN_VERSION=1.1.0      # prebuilt pty.node for the integrated terminal
RIPGREP_VERSION=1.18.0          # ships rg in platform packages (older ones download it)
RECIPE=5                        # raise when this script changes what it installs

CACHE=${1:-./.cache/workbench}
mkdir -p "$CACHE"
CACHE=$(cd "$CACHE" && pwd)
STAMP=$CACHE/.ready
LOG=$CACHE/setup.log

say()  { printf '[workbench] %s\n' "$*"; }
die()  { printf '[workbench] ERROR: %s\n' "$*" >&2; [ -s "$LOG" ] && { echo "[workbench] last lines of $LOG:" >&2; tail -n 15 "$LOG" >&2; }; exit 1; }
run()  { "$@" >>"$LOG" 2>&1; }
retry() { local n; for n in 1 2 3; do run "$@" && return 0; say "attempt $n failed: $1 ${2-}"; sleep $((n * 3)); done; return 1; }

command -v node >/dev/null || die "node is not on PATH"
command -v npm  >/dev/null || die "npm is not on PATH"
NODE_VERSION=$(node -p 'process.versions.node')
[ "${NODE_VERSION%%.*}" = 20 ] || die "code-server $CODE_SERVER_VERSION needs Node 20, found $NODE_VERSION"
ARCH=$(node -p 'process.arch')
case $ARCH in x64|arm64) ;; *) die "no prebuilt binaries known for architecture $ARCH" ;; esac

# --- system packages (only those that are missing) -------------------------------------------
CHROMIUM=${CHROMIUM_PATH:-/usr/bin/chromium}
missing=()
[ -x "$CHROMIUM" ] || missing+=(chromium)
[ -n "$(fc-list 2>/dev/null | head -n 1)" ] || missing+=(fontconfig fonts-dejavu-core)
if [ ${#missing[@]} -gt 0 ]; then
  command -v apt-get >/dev/null || die "missing ${missing[*]} and no apt-get to install them with"
  SUDO=; [ "$(id -u)" = 0 ] || SUDO=sudo
  say "apt-get install ${missing[*]}"
  : >"$LOG"
  retry $SUDO apt-get update -qq || die "apt-get update failed"
  retry $SUDO env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "${missing[@]}" \
    || die "apt-get install ${missing[*]} failed"
  [ -x "$CHROMIUM" ] || die "$CHROMIUM is still missing after apt-get install"
fi

# --- already set up? --------------------------------------------------------------------------
WANT="recipe=$RECIPE code-server=$CODE_SERVER_VERSION playwright-core=$PLAYWRIGHT_VERSION node=$NODE_VERSION arch=$ARCH"
ENTRY=$CACHE/node_modules/code-server/out/node/entry.js
if [ "$(cat "$STAMP" 2>/dev/null || true)" = "$WANT" ] && [ -f "$ENTRY" ]; then
  say "already set up in $CACHE ($WANT)"
  exit 0
fi

exec 9>"$CACHE/.lock"
if command -v flock >/dev/null; then flock -w 600 9 || die "another setup holds $CACHE/.lock"; fi
if [ "$(cat "$STAMP" 2>/dev/null || true)" = "$WANT" ] && [ -f "$ENTRY" ]; then
  say "already set up in $CACHE by another run"; exit 0
fi

# --- npm packages -----------------------------------------------------------------------------
rm -rf "$STAMP" "$CACHE/node_modules" "$CACHE/package-lock.json"
: >"$LOG"
NPM=(npm install --ignore-scripts --no-audit --no-fund --no-package-lock --loglevel=error)
cat >"$CACHE/package.json" <<JSON
{ "name": "workbench-cache", "private": true, "version": "0.0.0",
  "dependencies": {
    "code-server": "$CODE_SERVER_VERSION",
    "playwright-core": "$PLAYWRIGHT_VERSION",
    "@lydell/node-pty-linux-$ARCH": "$NODE_PTY_BIN_VERSION",
    "@vscode/ripgrep-linux-$ARCH": "$RIPGREP_VERSION",
    "argon2-prebuilt": "npm:argon2@$ARGON2_VERSION"
  } }
JSON
say "npm install code-server@$CODE_SERVER_VERSION, playwright-core@$PLAYWRIGHT_VERSION (no install scripts)"
cd "$CACHE"
retry "${NPM[@]}" || die "npm install of code-server failed"
VSCODE=$CACHE/node_modules/code-server/lib/vscode
MODS=$VSCODE/node_modules
say "npm install of the VS Code server's own dependencies"
cd "$VSCODE"
retry "${NPM[@]}" --omit=dev || die "npm install in code-server/lib/vscode failed"
if [ "${WORKBENCH_WITHOUT_TYPESCRIPT:-}" != 1 ]; then
  say "npm install of the built-in extensions' dependency (typescript)"
  cd "$VSCODE/extensions"
  retry "${NPM[@]}" --omit=dev || die "npm install in code-server/lib/vscode/extensions failed"
fi
cd "$CACHE"

# --- native parts, none compiled ----------------------------------------------------------------
say "putting the native parts in place"
ln -sfn node_modules "$VSCODE/node_modules.asar"               # as code-server's postinstall does
ln -sfn code-linux.sh "$VSCODE/bin/remote-cli/code-server"
ln -sfn browser-linux.sh "$VSCODE/bin/helpers/browser.sh"

rm -rf "$CACHE/node_modules/argon2"                            # required at start even with --auth none
ln -s argon2-prebuilt "$CACHE/node_modules/argon2"

mkdir -p "$MODS/@vscode/ripgrep/bin" "$MODS/node-pty/build/Release"
ln -sf "$CACHE/node_modules/@vscode/ripgrep-linux-$ARCH/bin/rg" "$MODS/@vscode/ripgrep/bin/rg"
chmod +x "$CACHE/node_modules/@vscode/ripgrep-linux-$ARCH/bin/rg"
cp "$CACHE/node_modules/@lydell/node-pty-linux-$ARCH/pty.node" "$MODS/node-pty/build/Release/pty.node"

# @vscode/spdlog writes every log and OUTPUT-panel file; without it output channels stay empty.
cat >"$MODS/@vscode/spdlog/index.js" <<'JS'
// Stand-in for the native logger: same calls, plain appends to the file.
const fs = require('fs'), path = require('path');
const NAMES = ['trace', 'debug', 'info', 'warning', 'error', 'critical', 'off'];
let globalLevel = 2;
class Logger {
  constructor(_kind, _name, file) {
    this.file = file; this.level = globalLevel; this.raw = false;
    try { fs.mkdirSync(path.dirname(file), { recursive: true }); fs.appendFileSync(file, ''); } catch { }
  }
  write(level, message) {
    if (level < this.level) return;
    const d = new Date(), p = (n, w = 2) => String(n).padStart(w, '0');
    const stamp = `${d.getFullYear()}-${p(d.getMonth() + 1)}-${p(d.getDate())} ${p(d.getHours())}:${p(d.getMinutes())}:${p(d.getSeconds())}.${p(d.getMilliseconds(), 3)}`;
    try { fs.appendFileSync(this.file, this.raw ? String(message) : `${stamp} [${NAMES[level]}] ${message}\n`); } catch { }
  }
  trace(m) { this.write(0, m); } debug(m) { this.write(1, m); } info(m) { this.write(2, m); }
  warn(m) { this.write(3, m); } error(m) { this.write(4, m); } critical(m) { this.write(5, m); }
  getLevel() { return this.level; } setLevel(l) { this.level = l; }
  clearFormatters() { this.raw = true; } setPattern() { this.raw = false; } flush() { } drop() { }
}
// One by one, so that ESM importers see the names.
exports.version = 0;
exports.Logger = Logger;
exports.setLevel = l => { globalLevel = l; };
exports.setFlushOn = () => { };
exports.shutdown = () => { };
exports.createRotatingLogger = async (name, file) => new Logger('rotating', name, file);
exports.createAsyncRotatingLogger = async (name, file) => new Logger('rotating_async', name, file);
JS
# native-watchdog ends an extension host whose parent died; code only needs start() to exist.
cat >"$MODS/native-watchdog/index.js" <<'JS'
// Stand-in for the native watchdog: looks once a second whether the parent still lives.
exports.start = pid => setInterval(() => {
  try { process.kill(pid, 0); } catch (e) { if (e.code === 'ESRCH') process.exit(87); }
}, 1000).unref();
JS

# --- check ---------------------------------------------------------------------------------------
say "checking"
(cd "$CACHE" && run node -e 'require("argon2"); require("playwright-core")') || die "argon2 or playwright-core does not load"
(cd "$VSCODE" && run node --input-type=module -e 'import "node-pty"; import "@parcel/watcher"; import { start } from "native-watchdog"; import * as s from "@vscode/spdlog"; if (!s.setFlushOn || !s.createAsyncRotatingLogger || !start) throw new Error("logger")') || die "node-pty, @parcel/watcher or spdlog does not load"
run "$MODS/@vscode/ripgrep/bin/rg" --version || die "ripgrep does not run"
FOUND=$(XDG_CONFIG_HOME="$CACHE/home" XDG_DATA_HOME="$CACHE/home" node "$ENTRY" --version 2>>"$LOG" | tail -n 1) || die "code-server --version failed"
case $FOUND in "$CODE_SERVER_VERSION "*) ;; *) die "unexpected code-server version: $FOUND" ;; esac
run "$CHROMIUM" --version || die "$CHROMIUM does not run"
printf '%s' "$WANT" >"$STAMP"
say "ready: $FOUND; $("$CHROMIUM" --version 2>/dev/null | tr -d '\n'); $(du -sh "$CACHE" | cut -f1) in $CACHE"
