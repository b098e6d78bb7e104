// Text that means harm, or only is in another script: typed into every field that is found, and carried by every kind of file, by links and by
// names of files. It is shown as text, apart from what is around it, or refused in words; it never runs and never bursts the page.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { after, before, describe, test } from 'node:test';
import { promisify } from 'node:util';
import { Desk } from './desk.js';
import { browse, ready } from './harness.js';
import { outside } from './looking.js';
import { checked, places, stage, walk } from './states.js';

const phone = { width: 360, height: 780 };
const data = async (name) => JSON.parse(await readFile(new URL(`../../core/chair/data/${name}`, import.meta.url), 'utf8'));

const HOSTILE = {
  markup: `</script></textarea><img src="x" data-hostile onerror="document.documentElement.dataset.hacked=''"><script>document.documentElement.dataset.hacked=''</script>`,
  turning: '\u202Egnp.exe\u2066 a\u200Bb\u0007c\u0000\u2028d\uFEFF',
  long: 'W'.repeat(10_000),
  // Chair in Arabic, Hebrew and Persian; the last needs its joiner.
  'from the right': 'كرسي (כיסא) می‌نشیند',
};

let browser;
let site;
before(async () => {
  [browser, site] = await Promise.all([browse(), stage()]);
});
after(async () => {
  await browser.close();
  await site.stop();
});

/** Runs in the page. What of a hostile text runs, turns or is not apart from the text around it. */
function harm() {
  const found = [];
  if ('hacked' in document.documentElement.dataset) found.push('it ran');
  if (document.querySelector('[data-hostile]')) found.push('its markup became an element');
  const isRight = document.documentElement.dir === 'rtl';
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_ALL);
  const look = (text, element, where) => {
    const bare = text.replace(/\u2068[^\u2066-\u2069]*\u2069/g, '');
    if (/[\u0000-\u0008\u000b-\u001f\u2028-\u202e\u2066-\u2069\ufeff]/.test(bare)) found.push(`${where} is turned: ${JSON.stringify(text.slice(0, 80))}`);
    const mixed = /[\u0590-\u08ff]/.test(bare) && /\p{Script=Latin}/u.test(bare);
    if (!isRight && mixed && !element.closest('bdi, [dir="auto"]')) found.push(`${where} is not apart: ${JSON.stringify(text.slice(0, 80))}`);
  };
  for (let node = texts.nextNode(); node; node = texts.nextNode()) {
    if (node instanceof Text) look(node.data, node.parentElement, `a text of ${node.parentElement.tagName} ${node.parentElement.className}`);
    else if (node instanceof Element) for (const name of ['aria-label', 'title', 'placeholder']) look(node.getAttribute(name) ?? '', node, `the ${name} of ${node.tagName}`);
  }
  return [...new Set(found)];
}

/** All that is wrong with what is on screen. */
const wrong = async (room) => [...(await room.evaluate(harm)), ...(await room.evaluate(outside))];

const FIELDS = 'input:is([type="text"], [type="search"], [type="email"], :not([type])), textarea:not([readonly])';

/** Types a text into every field that can be seen. Gives how many there are. */
async function typeAll({ room }, text) {
  const over = (await room.locator('dialog[open]').count()) > 0 ? 'dialog[open]' : 'body';
  const fields = await room.locator(`${over} :is(${FIELDS}):visible`).all();
  for (const field of fields) {
    // As pasted: what a field itself does not let in is its own affair.
    await field.evaluate((input, words) => {
      input.value = input.maxLength >= 0 ? words.slice(0, input.maxLength) : words;
      for (const type of ['input', 'change']) input.dispatchEvent(new Event(type, { bubbles: true }));
    }, text);
  }
  return fields.length;
}

const WITH_FIELDS = /^(first visit|all knobs|tab price|shelf|check in|surprise refused|order of two designs|book|room and publishing|asking for a quote|surprise)$/;

describe('typed into every field', () => {
  for (const place of places.filter(({ name }) => ['Workshop', 'setting up', 'Showroom'].includes(name))) {
    test(place.name, async (run) => {
      let fields = 0;
      await walk(browser, site.address, place, { viewport: phone, only: ({ name }) => WITH_FIELDS.test(name) }, async (at, state) => {
        for (const [kind, text] of Object.entries(HOSTILE)) {
          fields += await typeAll(at, text);
          await at.room.evaluate(() => new Promise((done) => setTimeout(done, 60)));
          await run.test(`${state.name}: ${kind}`, async () => assert.deepEqual(await wrong(at.room), []));
        }
      });
      assert.ok(fields > 20, `${fields} fields`);
    });
  }
});

/** Every text in a file of JSON as a path. @param {unknown} value @param {(string | number)[]} [path] @returns {(string | number)[][]} */
function textsOf(value, path = []) {
  if (typeof value === 'string') return [path];
  return value && typeof value === 'object' ? Object.keys(value).flatMap((key) => textsOf(value[key], [...path, key])) : [];
}

/** A copy with another text at a path. */
function withText(file, path, text) {
  const copy = structuredClone(file);
  let at = copy;
  for (const key of path.slice(0, -1)) at = at[key];
  at[path.at(-1)] = text;
  return copy;
}

/** Opens the Workshop and runs a test that demands that nothing was said on the console. */
async function atBench(run) {
  const context = await browser.newContext({ viewport: phone, locale: 'en-GB', serviceWorkers: 'block', acceptDownloads: true });
  const page = await context.newPage();
  const said = [];
  page.on('console', (message) => ['error', 'warning'].includes(message.type()) && !message.text().startsWith('Service Worker registration blocked') && said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  await page.goto(`${site.address}/bench/index.html`);
  await ready(page);
  await page.waitForFunction(() => localStorage.getItem('crestrail/design') !== null);
  await run(page, new Desk(page));
  assert.deepEqual(said, []);
  await context.close();
}

const give = (page, name, file) => page.locator('#head > input[type="file"]').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(typeof file === 'string' ? file : JSON.stringify(file)) });

/** Gives the page a file and waits until it has said what came of it. */
async function said(page, name, file) {
  await page.evaluate(() => document.querySelectorAll('#notices .close-button').forEach((shut) => shut.click()));
  await give(page, name, file);
  await page.locator('#notices .notice p').first().waitFor();
}

const kept = async (page) => JSON.parse(await page.evaluate(() => localStorage.getItem('crestrail/design')));

test('carried by every text in every kind of file', () =>
  atBench(async (page) => {
    const design = { ...(await kept(page)), name: 'Name' };
    const order = { crestrail: 'order/2', name: 'Kitchen', customer: 'Ada', lines: [{ name: 'Chair', quantity: 2, knobs: design.knobs, told: { offer: 'Chair', label: { way: 'shown', currency: 'EUR', minor: 10_000 } } }] };
    const shelf = { crestrail: 'shelf/1', designs: [{ id: 'a', name: 'Chair', date: '2026-03-09T10:00:00.000Z', design: design.knobs }] };
    const files = { design, order, shelf, shop: await data('shop.json'), showroom: await data('showroom.json') };
    const found = [];
    let turn = 0;
    for (const [kind, file] of Object.entries(files)) {
      // A shop has the same few kinds of text many times over.
      const paths = textsOf(file).filter((path, i) => path[0] !== 'crestrail' && (path.length < 3 || i % 4 === 0));
      for (const path of paths) {
        const [what, text] = Object.entries(HOSTILE)[turn++ % 4];
        await said(page, `${kind}.json`, withText(file, path, text));
        found.push(...(await wrong(page)).map((line) => `${kind}.${path.join('.')}, ${what}: ${line}`));
      }
      await said(page, `${kind}.json`, { ...file, [HOSTILE.markup + HOSTILE.long]: 1 });
      found.push(...(await wrong(page)).map((line) => `a key of ${kind}: ${line}`));
    }
    assert.deepEqual(found, []);
    assert.ok(turn > 80, `${turn} texts`);
  }));

test('carried by links and by names of files', () =>
  atBench(async (page) => {
    for (const [kind, text] of Object.entries(HOSTILE)) {
      for (const link of [`design/1;${text}`, `design/1;family=${text}`, `design/1;${text}=1`]) {
        await page.evaluate((hash) => void (location.hash = hash), checked(link.replace(/[\u0000-\u001f]/g, '')));
        await page.locator('#notices .notice').first().waitFor();
        assert.deepEqual(await wrong(page), [], `${kind} in a link`);
      }
      await said(page, `${text.replace(/[/\u0000]/g, '').slice(0, 200)}.json`, '{"torn": ');
      assert.deepEqual(await wrong(page), [], `${kind} as a file’s name`);
    }
  }));

test('what is written in such a script goes through order, shelf, comparison and checking in', () =>
  atBench(async (page, desk) => {
    const name = HOSTILE['from the right'];
    await page.locator('#design-name').fill(name);
    await page.locator('#tab-price').click();
    await page.locator('#quote-quantity').press('Enter');
    await page.locator('.order-line .order-name').filter({ hasText: name }).waitFor();
    assert.deepEqual(await wrong(page), []);
    await page.evaluate(() => document.activeElement.blur());
    await page.keyboard.press('k');
    await page.locator('.shelf-card').first().waitFor();
    assert.equal(await page.locator('.shelf-name').first().inputValue(), name);
    await page.locator('.shelf-dialog [data-act^="shelf_double"]').first().click();
    for (const box of await page.locator('.shelf-card .check input').all()) await box.check();
    assert.deepEqual(await wrong(page), []);
    await page.locator('.shelf-dialog .shelf-acts .plain-button').first().click();
    await page.locator('.compare-picture svg').nth(1).waitFor();
    assert.deepEqual(await wrong(page), []);
    await page.keyboard.press('Escape');
    const { knobs } = await kept(page);
    await desk.menu('Check in from a customer…');
    await page.locator('#checkin-text').fill(JSON.stringify({ crestrail: 'order/2', name, customer: name, lines: [{ name, quantity: 2, knobs }] }));
    await page.locator('#checkin button[type="submit"]').click();
    await page.locator('#checkin .checked-line').waitFor();
    assert.deepEqual(await wrong(page), []);
  }));

test('on the quote it is text: nothing of it runs in the page, and the PDF holds it within its edges', () =>
  atBench(async (page, desk) => {
    await page.locator('#tab-price').click();
    await page.locator('#quote-customer').fill(HOSTILE.markup.slice(0, 60));
    await page.locator('#design-name').fill('W'.repeat(60));
    await page.locator('#quote-number').fill('</title><b data-hostile>');
    const { name, text } = await desk.saved(() => page.getByRole('button', { name: 'Save the quote, HTML' }).click());
    assert.match(name, /\.html$/);
    const other = await page.context().newPage();
    await other.setContent(text);
    assert.deepEqual(await other.evaluate(harm), []);
    assert.ok((await other.locator('body').innerText()).includes(HOSTILE.markup.slice(0, 60)));
    await other.close();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save the quote, PDF' }).click()]);
    const { stdout } = await promisify(execFile)('pdftotext', ['-bbox', await download.path(), '-']);
    const [wide, high] = /<page width="([\d.]+)" height="([\d.]+)"/.exec(stdout).slice(1).map(Number);
    const words = [...stdout.matchAll(/xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)</g)];
    assert.ok(words.length > 100);
    assert.deepEqual(words.filter(([, x, y, right, foot]) => x < 0 || y < 0 || right > wide || foot > high).map(([, ...word]) => word.join(' ')), []);
    const told = words.map(([, , , , , word]) => word).join('');
    assert.ok(told.includes('&lt;/script&gt;&lt;/textarea&gt;&lt;img'), told.slice(0, 400));
    assert.ok(told.includes('W'.repeat(60)) || told.includes('W'.repeat(20)), told.slice(0, 400));
  }));
