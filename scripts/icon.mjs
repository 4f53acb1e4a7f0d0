// Draws media/icon.png from media/icon.svg with Chromium. Usage: node scripts/icon.mjs
import { chromium } from 'playwright-core';
import { readFileSync } from 'node:fs';
import path from 'node:path';

const media = path.join(path.dirname(import.meta.dirname), 'media');
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
  args: ['--no-sandbox'],
});
const page = await browser.newPage({ viewport: { width: 256, height: 256 } });
await page.setContent(`<body style="margin:0">${readFileSync(path.join(media, 'icon.svg'), 'utf8')}</body>`);
await page.screenshot({ path: path.join(media, 'icon.png'), omitBackground: true });
await browser.close();
