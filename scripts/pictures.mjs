// Makes the README's pictures of the editor from the real extension in the real workbench.
// Usage: node scripts/pictures.mjs [--all OUT_DIR [VIEW...] | --strips]   after `npm run package` and tests/e2e/setup-workbench.sh
//   --all: every view, or those named, in light, dark and high contrast into OUT_DIR instead, for looking at; of the sample SAMPLE.
//   --strips: only the strips of frames: a stroke, and water on its way.
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { openPreview, startServer } from '../tests/e2e/preview-page.mjs';
import { eventually, launchChromium, openWorkbench } from '../tests/e2e/workbench.mjs';

const root = path.dirname(import.meta.dirname);
const SAMPLE = process.env.SAMPLE ?? 'herb-wash-basin.tub';
const all = process.argv.indexOf('--all');
const out = all < 0 ? path.join(root, 'media') : path.resolve(process.argv[all + 1]);

const SETTINGS = {
  'workbench.sideBar.location': 'left',
  'workbench.activityBar.location': 'hidden',
  'breadcrumbs.enabled': false,
  'window.commandCenter': false,
  'workbench.layoutControl.enabled': false,
  'editor.fontSize': 13,
};
const THEMES = { light: 'Default Light Modern', dark: 'Default Dark Modern', 'high-contrast': 'Default High Contrast' };
const named = all < 0 ? [] : process.argv.slice(all + 2);
const VIEWS = ['flat', 'folded', 'water', 'hours', 'bends', 'nest', 'made'].filter(
  (view) => named.length === 0 || named.includes(view),
);

const workspace = mkdtempSync(path.join(tmpdir(), 'pictures-'));
cpSync(path.join(root, 'samples'), workspace, { recursive: true });
mkdirSync(out, { recursive: true });

/** Small enough for the package. */
const inFewColours = (file, colours) =>
  execFileSync('pngquant', ['--nofs', '--force', '--ext', '.png', String(colours), file]);

const shoot = async (theme, views, nameOf) => {
  const wb = await openWorkbench({
    workspace,
    extensions: [path.join(root, 'tubwright.vsix')],
    cache: path.join(root, '.cache/workbench'),
    settings: { ...SETTINGS, 'workbench.colorTheme': THEMES[theme] },
    viewport: { width: 1360, height: 820 },
  });
  try {
    await wb.openFile(SAMPLE);
    await wb.runCommand('View: Toggle Primary Side Bar Visibility');
    await wb.runCommand('Tubwright: Open Preview Beside the Text');
    const frame = await wb.webview({ selector: '.tabs' });
    for (const view of views) {
      await frame.click(`#tab-${view}`);
      await eventually(
        async () => (await frame.locator('.flat .cut, .legend li, .bends .row, .nest .piece, .hours-line').count()) > 0,
        {
          what: `${view} to be drawn`,
        },
      );
      await wb.page.mouse.move(400, 780);
      await new Promise((done) => setTimeout(done, 700));
      const file = path.join(out, nameOf(view, theme));
      await wb.screenshot(file);
      if (all < 0) inFewColours(file, 64);
      if (view === 'water' && all >= 0) {
        const plug = frame.getByRole('button', { name: 'Drain plugged' });
        if (await plug.isVisible()) {
          await plug.click();
          await new Promise((done) => setTimeout(done, 500));
          await wb.screenshot(path.join(out, nameOf('water-plugged', theme)));
        }
      }
      if (view === 'folded' && all >= 0) {
        await frame.getByLabel('Take apart').fill('60');
        await frame.getByLabel('Section').selectOption('x');
        await new Promise((done) => setTimeout(done, 500));
        await wb.screenshot(path.join(out, nameOf('folded-apart', theme)));
      }
    }
  } finally {
    await wb.close();
  }
};

const FRAMES = 4;

/** Frames of a picture side by side, in as few colours as they need. */
const shootStrip = async (browser, name, frames) => {
  const page = await browser.newPage({ viewport: { width: 1200, height: 400 } });
  const images = frames.map(
    (png) => `<img src="data:image/png;base64,${png.toString('base64')}" style="width:25%;height:100%">`,
  );
  await page.setContent(
    `<body style="margin:0"><main style="display:flex;background:#fff">${images.join('')}</main></body>`,
  );
  const file = path.join(root, 'media', name);
  await page.locator('main').screenshot({ path: file });
  await page.close();
  inFewColours(file, 32);
};

const shootStrips = async () => {
  const [browser, server] = [await launchChromium({ cache: path.join(root, '.cache/workbench') }), await startServer()];
  const text = readFileSync(path.join(root, 'samples', SAMPLE), 'utf8');
  try {
    const bends = await openPreview({ browser, server, text, view: 'bends', width: 1400, height: 760 });
    await bends.page.locator('.bends .row button').nth(1).click();
    await bends.page.getByRole('button', { name: 'Near the line' }).click();
    const stroke = [];
    for (let i = 0; i < FRAMES; i++) {
      await bends.page.getByLabel('Stroke').fill(String(Math.round((100 * i) / (FRAMES - 1))));
      const { x, y, width, height } = await bends.page.locator('.section').boundingBox();
      const side = Math.min(width, height);
      const clip = { x: x + (width - side) / 2, y: y + (height - side) / 2, width: side, height: side };
      stroke.push(await bends.page.screenshot({ clip }));
    }
    await shootStrip(browser, 'editor-stroke.png', stroke);
    await bends.close();
    const water = await openPreview({ browser, server, text, view: 'water', width: 560, height: 520 });
    await water.page.click('.legend summary');
    await water.page.waitForSelector('.space[data-moved]');
    const runs = [];
    for (let i = 0; i < FRAMES; i++) runs.push(await water.page.locator('.space').screenshot());
    await shootStrip(browser, 'editor-water-runs.png', runs);
    await water.close();
  } finally {
    await browser.close();
    server.stop();
  }
};

try {
  if (all >= 0) for (const theme of Object.keys(THEMES)) await shoot(theme, VIEWS, (view) => `${view}-${theme}.png`);
  else if (process.argv.includes('--strips')) await shootStrips();
  else {
    await shoot('light', ['flat'], () => 'editor-flat.png');
    await shoot('dark', ['water'], () => 'editor-water.png');
    await shootStrips();
  }
} finally {
  rmSync(workspace, { recursive: true, force: true });
}
