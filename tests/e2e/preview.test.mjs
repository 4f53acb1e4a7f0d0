// The page of the preview in the editor's four themes and in three widths: what lies where, what can be read, what keys do.
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { openPreview, startServer, THEMES } from './preview-page.mjs';
import { eventually, launchChromium } from './workbench.mjs';

const root = path.resolve(import.meta.dirname, '../..');
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const sampleText = (name) => readFileSync(path.join(root, 'samples', `${name}.tub`), 'utf8');
const VIEWS = ['flat', 'folded', 'water', 'hours', 'bends', 'nest', 'choices', 'made'];
let browser;
let server;

before(async () => {
  browser = await launchChromium({ cache: root });
  server = await startServer();
});

after(async () => {
  await browser?.close();
  server?.stop();
});

/** Opens a page, acts, closes it; nothing may have been thrown in it. */
const onPage = async (options, act) => {
  const preview = await openPreview({ browser, server, ...options });
  try {
    await act(preview, preview.page);
    assert.deepEqual(preview.errors, []);
  } finally {
    await preview.close();
  }
};

/** What the checker of accessibility finds, a line each. Source of its rules: Deque, axe-core (WCAG 2.2 A and AA). */
const judged = async (page) => {
  const { violations } = await page.evaluate(() => globalThis.axe.run());
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0].html} ${nodes[0].failureSummary}`);
};

for (const theme of Object.keys(THEMES)) {
  test(`nothing keeps a reader out in the theme ${theme}`, { timeout: 180_000 }, () =>
    onPage({ text: sampleText('faults-water'), theme, reducedMotion: 'reduce' }, async ({ show }, page) => {
      await page.evaluate(axe);
      for (const view of VIEWS) {
        await show(view);
        if (view === 'water') await page.waitForSelector('.finding');
        assert.deepEqual(await judged(page), [], view);
      }
    }),
  );
}

/** How many rows of buttons the toolbar has, and whether all of it lies within the page. */
const toolbarOf = (page) =>
  page.evaluate(() => {
    const boxes = [...document.querySelectorAll('header .bar > * button')]
      .filter((each) => each.offsetParent)
      .map((each) => each.getBoundingClientRect());
    return {
      rows: new Set(boxes.map(({ top, height }) => Math.round((top + height / 2) / 6))).size,
      right: Math.max(...boxes.map(({ right }) => right)),
      unnamed: [...document.querySelectorAll('header button')].filter((each) => !each.ariaLabel && !each.textContent)
        .length,
    };
  });

for (const width of [320, 376, 800, 1400]) {
  test(`the toolbar is one row at ${width} px, and every button of it has a name`, { timeout: 120_000 }, () =>
    onPage({ text: sampleText('herb-wash-basin'), width }, async ({ show }, page) => {
      for (const view of VIEWS) {
        await show(view);
        const { rows, right, unnamed } = await toolbarOf(page);
        assert.equal(rows, 1, view);
        assert.ok(right <= width, `${view}: ${right}`);
        assert.equal(unnamed, 0, view);
      }
      if (width > 400) return;
      await show('folded');
      await page.click('.more');
      await page.getByRole('button', { name: 'Top' }).click();
      assert.ok(await page.isVisible('.scale-bar'));
    }),
  );
}

test('a tub in inches is told in inches in every view, in its tables and on its findings', { timeout: 120_000 }, () =>
  onPage({ text: sampleText('boot-wash') }, async ({ show }, page) => {
    await page.click('[aria-label="Text"]');
    for (const view of VIEWS) {
      await show(view);
      await new Promise((done) => setTimeout(done, 300));
      const words = await page.evaluate(() =>
        [document.body.innerText, ...[...document.querySelectorAll('svg text')].map((each) => each.textContent)].join(
          '\n',
        ),
      );
      assert.doesNotMatch(words, /\d (mm|L|kg|kN)\b/, view);
      if (['flat', 'folded', 'water'].includes(view)) assert.match(words, /\d in\b/, view);
    }
  }),
);

const isWhole = (page, what) =>
  page.evaluate((selector) => {
    const picture = document.querySelector('.picture').getBoundingClientRect();
    return [...document.querySelectorAll(selector)].every((each) => {
      const box = each.getBoundingClientRect();
      return (
        box.left >= picture.left && box.right <= picture.right && box.top >= picture.top && box.bottom <= picture.bottom
      );
    });
  }, what);

test('flats are fitted again when their place changes, until the builder moves them', { timeout: 120_000 }, () =>
  onPage({ text: sampleText('herb-wash-basin') }, async (_, page) => {
    await page.setViewportSize({ width: 500, height: 500 });
    await eventually(() => isWhole(page, '.flat .cut.outer'), { what: 'all of it in the small place' });
    await page.mouse.move(250, 250);
    await page.mouse.wheel(0, -400);
    const box = await page.getAttribute('.flat', 'viewBox');
    const scaleOf = (viewBox) => Number(viewBox.split(' ')[2]);
    await page.setViewportSize({ width: 1000, height: 500 });
    await eventually(async () => (await page.getAttribute('.flat', 'viewBox')) !== box, { what: 'the new size' });
    assert.ok(
      Math.abs(scaleOf(await page.getAttribute('.flat', 'viewBox')) - 2 * scaleOf(box)) < 1e-6 * scaleOf(box) + 1,
    );
  }),
);

test('the wheel goes nearer to what lies under the pointer, in space too', { timeout: 120_000 }, () =>
  onPage({ text: sampleText('herb-wash-basin'), view: 'folded' }, async (_, page) => {
    await page.waitForSelector('.space[data-eye]');
    await page.getByRole('button', { name: 'Names' }).click();
    const places = () =>
      page.$$eval('.overlay text', (all) =>
        Object.fromEntries(all.map((each) => [each.textContent, [+each.getAttribute('x'), +each.getAttribute('y')]])),
      );
    const before = await places();
    const [name, [x, y]] = Object.entries(before)[0];
    const box = await (await page.$('.space')).boundingBox();
    await page.mouse.move(box.x + x, box.y + y - 4);
    for (let i = 0; i < 3; i++) await page.mouse.wheel(0, -120);
    await new Promise((done) => setTimeout(done, 400));
    const now = (await places())[name];
    assert.ok(Math.hypot(now[0] - x, now[1] - y) < 25, `${name} went from ${[x, y]} to ${now}`);
  }),
);

test('a saved picture has the name of the tub, its legend and its scale', { timeout: 120_000 }, () =>
  onPage({ text: sampleText('herb-wash-basin') }, async ({ show, said }, page) => {
    for (const view of ['flat', 'folded', 'water', 'bends']) {
      await show(view);
      if (view === 'folded') await page.getByRole('button', { name: 'Front' }).click();
      await new Promise((done) => setTimeout(done, 300));
      await page.getByRole('button', { name: 'Save SVG' }).click();
      const saved = await eventually(async () => (await said()).filter(({ type }) => type === 'picture').at(-1), {
        what: 'it',
      });
      assert.equal(saved.name, view);
      const drawing = Buffer.from(saved.base64, 'base64').toString();
      assert.match(drawing, /Herb-wash basin/, view);
      const legend = await page.$$eval('.legend li', (all) => all.map((each) => each.textContent));
      assert.ok(legend.length > 2, view);
      for (const words of legend) assert.ok(drawing.includes(`>${words}<`), `${view}: ${words}`);
      if (view !== 'water') assert.match(drawing, />\d+ mm</, view);
    }
  }),
);

test(
  'findings stand at their places with a shape each, and lead to the text, the fix and the page',
  { timeout: 120_000 },
  () =>
    onPage({ text: sampleText('faults-water') }, async ({ show, said }, page) => {
      for (const view of ['flat', 'folded', 'water']) {
        await show(view);
        await page.waitForSelector('.finding .sign');
        const shapes = await page.$$eval('.finding .sign', (all) =>
          all.map((each) => [each.getAttribute('class'), each.getAttribute('d')].join()),
        );
        assert.equal(new Set(shapes.map((each) => each.split(',')[0])).size, new Set(shapes).size, view);
      }
      await page.locator('.finding').first().focus();
      await page.keyboard.press('Enter');
      await page.waitForSelector('.callout:not([hidden])');
      for (const [name, act] of [
        ['Go There', 'text'],
        ['Fix…', 'fix'],
        ['Explain', 'explain'],
      ]) {
        await page.getByRole('button', { name }).first().click();
        assert.equal((await said()).at(-1).act, act);
      }
    }),
);

test('two places are measured, and the cut says where it is', { timeout: 120_000 }, () =>
  onPage({ text: sampleText('drip-pan'), view: 'folded' }, async (_, page) => {
    await page.waitForSelector('.space[data-eye]');
    await page.getByLabel('Section').selectOption('x');
    await page.getByLabel('Cut at').fill('30');
    assert.match(await page.textContent('.slider output'), /^x -?\d+(\.\d)? mm$/);
    await page.getByLabel('Section').selectOption('none');
    await page.getByRole('button', { name: 'Top' }).click();
    await page.getByRole('button', { name: 'Measure' }).click();
    await new Promise((done) => setTimeout(done, 300));
    const box = await (await page.$('.space')).boundingBox();
    await page.mouse.click(box.x + box.width * 0.4, box.y + box.height / 2);
    await page.mouse.click(box.x + box.width * 0.6, box.y + box.height / 2);
    await page.waitForSelector('.overlay .rule');
    assert.match(await page.textContent('.overlay .rule'), /^\d+(\.\d+)? mm$/);
    assert.match(await page.textContent('.status'), /apart: /);
  }),
);

/** A row of trays, each of a part of its own. */
const manyParts = (count) => {
  const lines = ['units mm', 'tub "Many"', 'sheet s = stainless thickness 1 radius 1'];
  for (let i = 0; i < count; i++) {
    const [x, y] = [(i % 25) * 260, Math.floor(i / 25) * 300];
    const [w, d] = [120 + (i % 7) * 15, 90 + (i % 5) * 25];
    lines.push(
      `point A${i} = (${x}, ${y}, 0) point B${i} = (${x + w}, ${y}, 0) point C${i} = (${x + w}, ${y + d}, 4) point D${i} = (${x}, ${y + d}, 4)`,
      `panel tray${i}Floor of s = A${i} B${i} C${i} D${i}`,
    );
  }
  return `${lines.join('\n')}\n`;
};

/** Words of a picture that lie over others: each pair with how far. Of words that are drawn, and nothing less than a hair. */
const overlaps = (page) =>
  page.evaluate(() => {
    const texts = [...document.querySelectorAll('.picture text')].filter((each) => each.getClientRects().length > 0);
    const boxes = texts.map((each) => ({ words: each.textContent, box: uprightBox(each) }));
    const found = [];
    boxes.forEach((a, i) => {
      for (const b of boxes.slice(i + 1)) if (meet(a.box, b.box)) found.push(`${a.words} / ${b.words}`);
    });
    return { count: boxes.length, found };

    /** Its corners on the screen, turned as it is; the ink is lower than the line. */
    function uprightBox(text) {
      const { x, y, width, height } = text.getBBox();
      const matrix = text.getScreenCTM();
      const lower = height * 0.18;
      return [
        [x, y + lower],
        [x + width, y + lower],
        [x + width, y + height - lower],
        [x, y + height - lower],
      ].map(([px, py]) => new DOMPoint(px, py).matrixTransform(matrix));
    }

    /** Two convex shapes are apart when they are along a side of one of them. */
    function meet(a, b) {
      const sides = [...a.map((p, i) => [p, a[(i + 1) % 4]]), ...b.map((p, i) => [p, b[(i + 1) % 4]])];
      return sides.every(([p, q]) => {
        const [nx, ny] = [q.y - p.y, p.x - q.x];
        const along = (shape) => shape.map((c) => c.x * nx + c.y * ny);
        const [s, t] = [along(a), along(b)];
        const least = Math.hypot(nx, ny) * 0.5;
        return Math.max(...s) - Math.min(...t) > least && Math.max(...t) - Math.min(...s) > least;
      });
    }
  });

for (const count of [60, 300]) {
  test(
    `no words lie over one another with ${count} parts, at any size, nor on the part of another`,
    { timeout: 180_000 },
    () =>
      onPage({ text: manyParts(count) }, async (_, page) => {
        await page.waitForSelector('.flat .cut.outer');
        assert.equal(await page.getByRole('button', { name: 'Sizes' }).getAttribute('aria-pressed'), 'true');
        let most = 0;
        for (const width of [1400, 800, 376]) {
          await page.setViewportSize({ width, height: 800 });
          for (let zoom = 0; zoom < 4; zoom++) {
            await new Promise((done) => setTimeout(done, 150));
            const { count: seen, found } = await overlaps(page);
            assert.deepEqual(found, [], `${width} px, ${zoom} times nearer`);
            most = Math.max(most, seen);
            await page.mouse.move(width / 2, 300);
            await page.mouse.wheel(0, -500);
          }
          await page.click('[aria-label="Fit"]');
        }
        assert.ok(most > 40, `${most} words are seen`);
      }),
  );
}

const TUBS = readdirSync(path.join(root, 'samples'))
  .filter((name) => !/^(shop|faults)/.test(name))
  .map((name) => name.replace('.tub', ''));

test('no words lie over one another in any view of any sample, at three sizes', { timeout: 1_800_000 }, async () => {
  for (const name of TUBS)
    await onPage({ text: sampleText(name) }, async ({ show }, page) => {
      for (const view of ['flat', 'folded', 'water', 'bends']) {
        await show(view);
        for (const width of [1400, 800, 376]) {
          await page.setViewportSize({ width, height: 760 });
          await new Promise((done) => setTimeout(done, 250));
          assert.deepEqual((await overlaps(page)).found, [], `${name}, ${view}, ${width} px`);
        }
      }
    });
});

test(
  'the water runs while it is seen, stands still where no motion is wanted, and moves nothing while hidden',
  { timeout: 120_000 },
  async () => {
    const moved = (page) => page.evaluate(() => document.querySelector('.space')?.dataset.moved);
    await onPage({ text: sampleText('herb-wash-basin'), view: 'water' }, async ({ show }, page) => {
      const first = await eventually(() => moved(page), { what: 'the water to run' });
      await eventually(async () => (await moved(page)) !== first, { what: 'it to run on' });
      await page.evaluate(() => {
        globalThis.space = document.querySelector('.space');
      });
      await show('flat');
      const last = await page.evaluate(() => globalThis.space.dataset.moved);
      await new Promise((done) => setTimeout(done, 400));
      assert.equal(await page.evaluate(() => globalThis.space.dataset.moved), last);
      await show('water');
      await eventually(async () => (await moved(page)) !== last, { what: 'it to run again' });
      await page.getByRole('button', { name: 'Running' }).click();
      const still = await moved(page);
      await new Promise((done) => setTimeout(done, 300));
      assert.equal(await moved(page), still);
    });
    await onPage({ text: sampleText('herb-wash-basin'), view: 'water', reducedMotion: 'reduce' }, async (_, page) => {
      await page.waitForSelector('.space[data-eye]');
      await new Promise((done) => setTimeout(done, 400));
      assert.equal(await moved(page), undefined);
      assert.equal(await page.getByRole('button', { name: 'Running' }).isVisible(), false);
    });
  },
);

test('the plugged tub is filled step by step, and the legend is that of what is drawn', { timeout: 400_000 }, () =>
  onPage({ text: sampleText('herb-wash-basin'), view: 'water' }, async (_, page) => {
    const legend = () => page.$$eval('.legend li', (all) => all.map((each) => each.textContent));
    await eventually(async () => (await legend()).includes('running, wider for more'), { what: 'the legend' });
    assert.ok(!(await legend()).includes('waterline'));
    await page.getByRole('button', { name: 'Drain plugged' }).click();
    await eventually(async () => (await legend()).includes('waterline'), { what: 'the legend of the full tub' });
    assert.ok((await legend()).includes('deeper than 160 mm'));
    assert.ok(!(await legend()).includes('running, wider for more'));
    let before = [0, 0];
    for (const share of [10, 40, 70, 100]) {
      await page.getByLabel('Fill').fill(String(share));
      const told = (await page.textContent('.slider output')).match(/^([\d.]+) L at ([\d.]+) mm$/);
      assert.ok(told, `${share} %`);
      const now = [Number(told[1]), Number(told[2])];
      assert.ok(now[0] > before[0] && now[1] > before[1], `${before} then ${now}`);
      before = now;
    }
  }),
);

test('every view is reached, stepped through and left with keys alone', { timeout: 120_000 }, () =>
  onPage({ text: sampleText('herb-wash-basin') }, async ({ said }, page) => {
    await page.waitForSelector('.flat .cut.outer');
    await page.keyboard.press('Tab');
    assert.equal(await page.evaluate(() => document.activeElement.id), 'tab-flat');
    for (const view of VIEWS.slice(1)) {
      await page.keyboard.press('ArrowRight');
      await eventually(() => page.evaluate((v) => document.activeElement.id === `tab-${v}`, view), { what: view });
      if (!['folded', 'water', 'bends'].includes(view)) continue;
      await eventually(() => page.evaluate(() => Number(document.body.dataset.painted?.split(' ')[0]) > 0), {
        what: view,
      });
      await page.waitForSelector(view === 'bends' ? '.bends .row' : '.space[data-eye]');
      for (let i = 0; i < 40; i++) {
        await page.keyboard.press('Tab');
        if (await page.evaluate(() => document.activeElement.classList.contains('picture'))) break;
      }
      assert.ok(await page.evaluate(() => document.activeElement.classList.contains('picture')), view);
      await page.keyboard.press(view === 'bends' ? 'ArrowDown' : 'n');
      await page.keyboard.press('Enter');
      await eventually(async () => (await said()).some((each) => each.type === 'reveal' && each.view === view), {
        what: view,
      });
      await page.focus(`#tab-${view}`);
    }
  }),
);

test(
  'flats bear the numbers of strokes and the letters of holes once they are planned, and lengths from a corner',
  { timeout: 120_000 },
  () =>
    onPage({ text: sampleText('herb-wash-basin') }, async (_, page) => {
      const words = (kind) => page.$$eval(`.flat text.${kind}`, (all) => all.map((each) => each.textContent));
      await eventually(async () => (await words('angle')).includes('4. ▲ up 34.0°'), {
        what: 'the numbers of strokes',
      });
      assert.ok((await words('letter')).includes('A'));
      assert.ok((await words('size')).includes('765.6'));
      assert.ok((await words('facing')).some((each) => /front/.test(each)));
    }),
);

test(
  'a part is turned over between strokes, and lies still at once where no motion is wanted',
  { timeout: 400_000 },
  async () => {
    const still = await new Promise((found, failed) => {
      onPage({ text: sampleText('herb-wash-basin'), view: 'bends', reducedMotion: 'reduce' }, async (_, page) => {
        await page.locator('.bends .row button').nth(3).click();
        assert.equal(await page.getByRole('button', { name: 'Play' }).isVisible(), false);
        assert.match(await page.textContent('figcaption'), /^dry side up: turn the part over/);
        found(await page.$eval('.at-brake', (each) => each.innerHTML));
      }).catch(failed);
    });
    await onPage({ text: sampleText('herb-wash-basin'), view: 'bends' }, async (_, page) => {
      const part = () => page.$eval('.at-brake', (each) => each.innerHTML);
      await page.evaluate(() => {
        globalThis.ways = new Set();
        const shown = document.querySelector('.at-brake');
        new MutationObserver(() => globalThis.ways.add(shown.innerHTML)).observe(shown, { childList: true });
      });
      await page.locator('.bends .row button').nth(3).click();
      await eventually(async () => (await part()) === still, { what: 'the part to lie as it is bent' });
      const ways = await page.evaluate(() => [...globalThis.ways]);
      assert.ok(ways.some((way) => way !== still && way.length > 0));
      // It springs back from there to what is wanted.
      const told = /bend to ([\d.]+) deg/.exec(await page.textContent('.facts'))[1];
      assert.ok(Number(told) > 34);
      const shown = async () => Number((await page.textContent('.controls output.angle')).slice(0, -1));
      await eventually(async () => Math.abs((await shown()) - Number(told)) < 0.051, { what: `the stroke to ${told}` });
    });
  },
);

test('flats turned over show their other side: left and right, up and down change places', { timeout: 120_000 }, () =>
  onPage({ text: sampleText('herb-wash-basin') }, async (_, page) => {
    await page.waitForSelector('.flat .cut.outer');
    const floor = () =>
      page.evaluate(() => {
        const holes = [...document.querySelectorAll('.flat .cut.inner')].map((each) => each.getBBox());
        const outline = document.querySelector('.flat [data-key="part:floor"] .outer').getBBox();
        const bends = [...document.querySelectorAll('.flat .bend')];
        return {
          hole: (holes[0].x + holes[0].width / 2 - outline.x) / outline.width,
          ups: bends.filter((each) => each.classList.contains('up')).length,
          count: bends.length,
          facts: document.querySelectorAll('.flat .facts')[1].textContent,
        };
      });
    const before = await floor();
    await page.getByRole('button', { name: 'Turn Over' }).click();
    const after = await floor();
    assert.ok(Math.abs(after.hole + before.hole - 1) < 1e-3, `${before.hole} ${after.hole}`);
    assert.equal(after.ups, before.count - before.ups);
    assert.notEqual(after.facts, before.facts);
    assert.match(before.facts, /(dry|wet) side up$/);
  }),
);
