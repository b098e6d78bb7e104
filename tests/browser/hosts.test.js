// Hosts and networks as they are: wrong media types, slow and cut lines, files that are missing or replaced, strict policies. The page
// works, or says in plain words what is wrong and lets one try again; what is kept in the browser stays.
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, test } from 'node:test';
import { Desk } from './desk.js';
import { withoutWasm } from './engines.js';
import { browse, dist, ready } from './harness.js';
import { roughHost } from './rough.js';

const CORE = 'crestrail_bg.wasm';
/** A path with what has to be escaped in it. */
const PATH = '/my site/chaises à voir/';

let browser;
let host;
before(async () => {
  [browser, host] = await Promise.all([browse(), roughHost(dist, PATH)]);
});
after(() => Promise.all([browser.close(), host.stop()]));

/** Opens the page with the host as it is set, in a profile of its own, and puts the host right afterwards. */
async function visit(set, run, { serviceWorkers = 'block', wait = false } = {}) {
  Object.assign(host, { folder: dist, wrong: {}, once: {}, headers: {}, types: {}, asked: [] }, set);
  const context = await browser.newContext({ locale: 'en-GB', viewport: { width: 900, height: 800 }, serviceWorkers });
  const page = await context.newPage();
  await page.goto(host.address, { waitUntil: 'commit' });
  if (wait) await ready(page);
  await run(page, context);
  await context.close();
}

/** A knob is turned, and the price and the sizes follow. */
async function works(page) {
  await ready(page);
  const desk = new Desk(page);
  await desk.changing(() => desk.type('Seat height', '470'));
  assert.equal(await desk.notices.count(), 0);
  assert.equal(await page.locator('#trouble').isHidden(), true);
}

/** Says what is wrong, and is well again once the host is. */
async function says(page, wanted) {
  // Without its style sheets the page shows it before a script has.
  const box = page.locator('#trouble:not([hidden])');
  await box.filter({ hasText: wanted }).waitFor({ timeout: 15_000 });
  assert.match(await box.innerText(), /What you have kept in this browser stays as it is\./);
  return box;
}

async function againAndWell(page, box) {
  Object.assign(host, { wrong: {}, headers: {} });
  await page.evaluate(() => (document.documentElement.dataset.before = ''));
  await box.getByRole('button', { name: 'Try again' }).click();
  await page.locator('html:not([data-before])').waitFor();
  await works(page);
}

describe('it works', () => {
  for (const [name, type] of [['as plain bytes', 'application/octet-stream'], ['as text', 'text/plain'], ['without a media type', '']]) {
    test(`where wasm comes ${name}, and nothing may be guessed`, () =>
      visit({ types: { '.wasm': type }, headers: { 'X-Content-Type-Options': 'nosniff' } }, works));
  }

  test('on a slow line', () => visit({ wrong: { [CORE]: 'slow', 'main.js': 'slow' } }, works));

  for (const fault of ['cut', 'absent', 'gzip']) {
    test(`where the core comes wrong once (${fault}) and whole the next time`, () => visit({ once: { [CORE]: fault } }, works));
  }
});

describe('it says what is wrong, and works once that is mended', () => {
  const cases = [
    ['the core is cut on the way', { [CORE]: 'cut' }, /The file crestrail_bg\.wasm did not come through whole/],
    ['the core comes squeezed wrongly', { [CORE]: 'gzip' }, /The file crestrail_bg\.wasm did not come through whole/],
    ['the core is missing', { [CORE]: 'absent' }, /does not give out the file crestrail_bg\.wasm \(its answer: 404\)/],
    ['a sign-in page comes in the place of the core', { [CORE]: 'sign-in' }, /Something else came in the place of the file crestrail_bg\.wasm/],
    ['the worker is missing', { 'worker.js': 'absent' }, /does not give out the file worker\.js/],
    ['a sign-in page comes in the place of the worker’s script', { 'crestrail.js': 'sign-in' }, /Something else came in the place of the file crestrail\.js/],
    ['the page’s script is missing', { 'main.js': 'absent' }, /The page did not come through whole/],
    ['the page’s script is cut on the way', { 'main.js': 'cut' }, /The page did not come through whole/],
    ['a sign-in page comes in the place of the page’s script', { 'main.js': 'sign-in as script' }, /The page did not come through whole/],
    ['a style sheet is missing', { 'index.css': 'absent' }, /The page did not come through whole/],
  ];
  for (const [name, wrong, wanted] of cases) test(name, () => visit({ wrong }, async (page) => againAndWell(page, await says(page, wanted))));

  const strict = (script, worker) => ({ headers: { 'Content-Security-Policy': `default-src 'self'; script-src ${script}; img-src 'self' data: blob:; worker-src ${worker}` } });
  test('the host forbids WebAssembly', () =>
    visit(strict("'self'", "'self'"), async (page) => againAndWell(page, await says(page, /Content-Security-Policy forbids WebAssembly.*wasm-unsafe-eval/))));

  test('the host forbids workers', () =>
    visit(strict("'self' 'wasm-unsafe-eval'", "'none'"), async (page) => againAndWell(page, await says(page, /may not start its worker/))));

  test('the line hangs', () =>
    visit({ wrong: { [CORE]: 'hangs' } }, async (page) => {
      await page.locator('#trouble').waitFor({ state: 'visible', timeout: 20_000 });
      await againAndWell(page, await says(page, /still on its way/));
    }));

  test('the browser has no WebAssembly', async () => {
    const bare = await withoutWasm();
    Object.assign(host, { folder: dist, wrong: {}, once: {}, headers: {}, types: {} });
    const page = await bare.newPage({ locale: 'en-GB' });
    await page.goto(host.address);
    await says(page, /WebAssembly is missing or switched off/);
    await bare.close();
  });

  test('in the language of the reader', async () => {
    Object.assign(host, { folder: dist, wrong: { [CORE]: 'absent' }, once: {}, headers: {}, types: {} });
    const page = await browser.newPage({ locale: 'de-DE', serviceWorkers: 'block' });
    await page.goto(host.address);
    await page.getByRole('alert').filter({ hasText: `Die Website gibt die Datei ${CORE} nicht heraus` }).waitFor();
    await page.getByRole('button', { name: 'Noch einmal versuchen' }).waitFor();
    await page.close();
  });
});

describe('what is kept', () => {
  test('stays through every fault, and comes back', () =>
    visit({}, async (page) => {
      await ready(page);
      const desk = new Desk(page);
      await desk.changing(() => desk.type('Seat height', '466'));
      await desk.link('seat_height=466');
      const kept = () => page.evaluate(() => JSON.stringify(Object.entries(localStorage).sort()));
      const before = await kept();
      for (const wrong of [{ [CORE]: 'cut' }, { 'main.js': 'absent' }, { 'worker.js': 'sign-in' }]) {
        host.wrong = wrong;
        await page.goto('about:blank');
        await page.goto(host.address, { waitUntil: 'commit' });
        await page.locator('#trouble').waitFor({ timeout: 15_000 });
        assert.equal(await kept(), before);
      }
      host.wrong = {};
      await page.getByRole('button', { name: 'Try again' }).click();
      await ready(page);
      assert.equal(await desk.field('Seat height').inputValue(), '466');
    }));
});

describe('a new version', () => {
  let next;
  before(() => {
    next = mkdtempSync(join(tmpdir(), 'crestrail-next-'));
    cpSync(dist, next, { recursive: true });
    // Another version of a script that is asked for at the start, with its line in the list of the service worker.
    const name = 'main.js';
    writeFileSync(join(next, name), `${readFileSync(join(next, name), 'utf8')}document.documentElement.dataset.next = '';\n`);
    const worker = readFileSync(join(next, 'sw.js'), 'utf8').replace(/"version":\s*"[^"]*"/, '"version":"next"').replace(new RegExp(`"${name}":\\s*"[^"]*",?\\s*`), '');
    writeFileSync(join(next, 'sw.js'), worker);
  });
  after(() => rmSync(next, { recursive: true }));

  const controlled = async (page) => {
    await ready(page);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  };

  test('is not taken while it is still being copied, then offered, and shown when it is wanted', () =>
    visit(
      {},
      async (page) => {
        await controlled(page);
        // The list is there, one of its files is still the old one: a digest that does not fit.
        const half = mkdtempSync(join(tmpdir(), 'crestrail-half-'));
        cpSync(next, half, { recursive: true });
        writeFileSync(join(half, 'boot.js'), 'export {};\n');
        host.folder = half;
        const ended = await page.evaluate(async () => {
          const registration = await navigator.serviceWorker.getRegistration();
          const found = new Promise((settle) => registration.addEventListener('updatefound', () => settle(registration.installing), { once: true }));
          await registration.update().catch(() => {});
          const worker = await found;
          if (worker.state !== 'redundant') await new Promise((settle) => worker.addEventListener('statechange', () => worker.state === 'redundant' && settle()));
          return Boolean(registration.waiting);
        });
        assert.equal(ended, false, 'nothing waits to take over');
        await page.reload();
        await works(page);
        assert.equal(await page.locator('html[data-next]').count(), 0);
        rmSync(half, { recursive: true });

        host.folder = next;
        await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
        const offered = page.locator('#notices .notice').filter({ hasText: /newer version/ });
        await offered.waitFor();
        assert.equal(await page.locator('html[data-next]').count(), 0, 'it is offered, not forced');
        await offered.getByRole('button').first().click();
        await page.locator('html[data-next]').waitFor();
        await ready(page);
      },
      { serviceWorkers: 'allow' },
    ));
});
