// Makes the README's pictures of the editor from the real extension in the real workbench.
// Usage: node scripts/pictures.mjs [--all OUT_DIR [VIEW...]]   after `npm run package` and tests/e2e/setup-workbench.sh
//   --all: every view, or those named, in light, dark and high contrast into OUT_DIR instead, for looking at; of the sample SAMPLE.
import { cpSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { eventually, openWorkbench } from '../tests/e2e/workbench.mjs';

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
const VIEWS = ['flat', 'folded', 'water', 'hours', 'bends', 'nest'].filter(
  (view) => named.length === 0 || named.includes(view),
);

const workspace = mkdtempSync(path.join(tmpdir(), 'pictures-'));
cpSync(path.join(root, 'samples'), workspace, { recursive: true });
mkdirSync(out, { recursive: true });

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
        async () =>
          (await frame
            .locator('.flat .cut, .space[data-eye], .bends .row, .nest .piece, .hours-line, .notes li')
            .count()) > 0,
        {
          what: `${view} to be drawn`,
        },
      );
      await wb.page.mouse.move(400, 780);
      await new Promise((done) => setTimeout(done, 700));
      await wb.screenshot(path.join(out, nameOf(view, theme)));
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

try {
  if (all >= 0) for (const theme of Object.keys(THEMES)) await shoot(theme, VIEWS, (view) => `${view}-${theme}.png`);
  else {
    await shoot('light', ['flat'], () => 'editor-flat.png');
    await shoot('dark', ['water'], () => 'editor-water.png');
  }
} finally {
  rmSync(workspace, { recursive: true, force: true });
}
