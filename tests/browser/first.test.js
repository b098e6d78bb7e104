// The first chair, written into the page when it is packed: on screen before any script has run, and the same as the live one.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { browse, dist, ready, single, sizes } from './harness.js';
import { host } from './site.js';

const published = fileURLToPath(new URL('../out/published/', import.meta.url));

let browser;
let site;
before(async () => {
  [browser, site] = await Promise.all([browse(), host({ '/': `${dist}/`, '/room/': published })]);
});
after(async () => {
  await browser.close();
  await site.stop();
});

/** A page on which the core is held back until `go` is called; `shifts` are the moves of the layout that nobody asked for. */
async function held(address, { viewport = sizes.desk, keep, ...options } = {}) {
  const context = await browser.newContext({ viewport, locale: 'en', serviceWorkers: 'block', ...options });
  const page = await context.newPage();
  const gate = Promise.withResolvers?.() ?? gateOf();
  await page.route('**/crestrail_bg.wasm', async (route) => {
    await gate.promise;
    await route.continue();
  });
  if (keep) await page.addInitScript((kept) => Object.entries(kept).forEach(([name, text]) => localStorage.setItem(`crestrail/${name}`, text)), keep);
  await page.addInitScript(() => {
    globalThis.shifts = [];
    const inStage = (node) => (node instanceof Element ? node : node?.parentElement)?.closest('.stage, .title-block')?.className;
    const note = ({ value, sources }) => globalThis.shifts.push({ value, at: sources.map(({ node }) => inStage(node)).filter(Boolean), what: sources.map(({ node }) => (node instanceof Element ? node : node?.parentElement)?.outerHTML.slice(0, 80)) });
    new PerformanceObserver((list) => list.getEntries().forEach(note)).observe({ type: 'layout-shift', buffered: true });
  });
  await page.goto(address);
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
  return { page, context, go: () => gate.resolve() };
}

function gateOf() {
  const gate = {};
  gate.promise = new Promise((resolve) => (gate.resolve = resolve));
  return gate;
}

/** Where each part of the picture lies and in which colours, to the pixel. */
const drawn = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('#picture svg [data-letter]')].map((part) => {
      const { left, top, right, bottom } = part.getBoundingClientRect();
      // How much grain there is room for goes by the picture's size.
      const colours = [...part.querySelectorAll('path')].filter((path) => getComputedStyle(path).strokeOpacity === '1').map((path) => {
        const { fill, stroke, strokeWidth } = getComputedStyle(path);
        return [fill, stroke, stroke === 'none' ? '' : parseFloat(strokeWidth).toFixed(1)].join(' ');
      });
      return { letter: part.dataset.letter, box: [left, top, right, bottom], colours: [...new Set(colours)] };
    }),
  );

/** Colours that a program has rounded to eight bits on two ways may differ in the last. */
const rounded = (colour) => colour.replace(/\d+(\.\d+)?/g, (figure) => String(Math.round(Number(figure))));

for (const [name, viewport] of Object.entries(sizes)) {
  for (const colorScheme of ['light', 'dark']) {
    test(`picture and title block are those that the page itself makes: ${name}, ${colorScheme}`, async () => {
      const { page, context, go } = await held(`${site.address}/`, { viewport, colorScheme });
      await page.locator('#kinds').waitFor({ state: 'attached' });
      assert.equal(await page.locator('.first svg').isVisible(), true);
      const [first, block] = [await drawn(page), await page.locator('#summary dl').innerHTML()];
      assert.ok(first.length > 10 && /€[\d,.]+<\/dd>/.test(block), block);
      go();
      await ready(page);
      const live = await drawn(page);
      assert.equal(await page.locator('.first').count(), 0);
      assert.equal(await page.locator('#summary dl').innerHTML(), block);
      assert.deepEqual(first.map(({ letter }) => letter), live.map(({ letter }) => letter));
      first.forEach(({ letter, box, colours }, i) => {
        const far = Math.max(...box.map((at, j) => Math.abs(at - live[i].box[j])));
        assert.ok(far < 1.5, `${letter} lies ${far.toFixed(2)} px beside the live one`);
        assert.deepEqual(colours.map(rounded).sort(), live[i].colours.map(rounded).sort(), letter);
      });
      const shifts = await page.evaluate(() => globalThis.shifts.filter(({ at }) => at.length > 0));
      assert.deepEqual(shifts, []);
      await context.close();
    });
  }
}

test('a chair of the published folder is on its label before the core', async () => {
  const { page, context, go } = await held(`${site.address}/room/`, { locale: 'en-GB' });
  await page.locator('.kinds-tiles, .first').first().waitFor();
  assert.equal(await page.locator('.first svg').isVisible(), true);
  const words = await page.locator('#label dl').innerText();
  assert.match(words, /€/);
  const [first, block] = [await drawn(page), await page.locator('#label dl').innerHTML()];
  go();
  await ready(page);
  assert.equal(await page.locator('#label dl').innerHTML(), block);
  const live = await drawn(page);
  first.forEach(({ letter, box }, i) => {
    const far = Math.max(...box.map((at, j) => Math.abs(at - live[i].box[j])));
    assert.ok(far < 1.5, `${letter} lies ${far.toFixed(2)} px beside the live one`);
  });
  await context.close();
});

describe('the first chair is not shown for another', () => {
  const another = JSON.stringify({ crestrail: 'design/1', name: 'Mine', knobs: { family: 'stool' } });

  for (const [what, address, keep] of [
    ['a link', '/#design/1;family=stool;check=00000000', undefined],
    ['a kept design', '/', { design: another }],
    ['a kept design of the Showroom', '/room/', { 'showroom-design': another }],
  ]) {
    test(`where there is ${what}`, async () => {
      const { page, context } = await held(site.address + address, { keep });
      assert.equal(await page.locator('#picture svg').filter({ visible: true }).count(), 0);
      assert.match(await page.locator('#loading').innerText(), /being drawn/);
      assert.doesNotMatch(await page.locator('.title-block').innerText(), /€/);
      await context.close();
    });
  }

  test('and its words and price are not where the page speaks another language, or has another workshop', async () => {
    for (const [options, about] of [[{ locale: 'de-DE' }, 'language'], [{ keep: { shop: '{}' } }, 'shop'], [{ keep: { lengths: 'in' } }, 'unit']]) {
      const { page, context } = await held(`${site.address}/`, options);
      assert.equal(await page.locator('.first svg').isVisible(), true, about);
      assert.doesNotMatch(await page.locator('.title-block').innerText(), /€/, about);
      await context.close();
    }
  });
});

test('the link and the file that the page itself keeps of the first chair are known as such', async () => {
  const context = await browser.newContext({ viewport: sizes.desk, locale: 'en', serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(`${site.address}/`);
  await ready(page);
  await page.waitForFunction(() => location.hash !== '' && localStorage.getItem('crestrail/design') !== null);
  await page.route('**/crestrail_bg.wasm', () => {});
  await page.reload();
  assert.equal(await page.locator('.first svg').isVisible(), true);
  assert.match(await page.locator('.title-block').innerText(), /€/);
  await context.close();
});

test('without a core the picture stays, with what is wrong in plain words', async () => {
  const context = await browser.newContext({ viewport: sizes.phone, locale: 'en', serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.route('**/crestrail_bg.wasm', (route) => route.abort());
  await page.goto(`${site.address}/`);
  await page.getByText(/did not come through whole/).waitFor();
  assert.equal(await page.locator('.first svg').isVisible(), true);
  assert.match(await page.locator('.title-block').innerText(), /€/);
  await context.close();
});

test('without scripts the chair is there, with its price', async () => {
  const context = await browser.newContext({ viewport: sizes.desk, javaScriptEnabled: false });
  const page = await context.newPage();
  for (const address of [`${site.address}/`, single]) {
    await page.goto(address);
    assert.equal(await page.locator('.first svg').isVisible(), true, address);
    assert.match(await page.locator('.title-block').innerText(), /€/);
  }
  await context.close();
});
