// Figures, printed and not judged: a busy machine must not fail a test. What is judged is that there
// are figures, that the first view loads from one place no more than is packed for it, and what it takes until the first chair.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { brotliCompressSync, constants } from 'node:zlib';
import { Desk } from './desk.js';
import { open, quantile, together } from './harness.js';

const STEPS = 200;
/** What a browser waits for before it paints: the page itself, its style sheet with the typeface, the early script. */
const BEFORE_PAINT = /(\/|index\.html|index\.css|early\.js|\.woff2)$/;
/** The goal for all that is loaded until a first chair is on screen with price and verdict, bytes in brotli. */
const FIRST_CHAIR = 300_000;

const here = together();

const row = (name, values) =>
  console.log(`${name.padEnd(28)} p50 ${quantile(values, 0.5).toFixed(2)} ms  p95 ${quantile(values, 0.95).toFixed(2)} ms`);

test(`work for each of ${STEPS} steps of a knob`, async () => {
  const { page, context, faults } = await open(here.browser, here.server.address);
  const desk = new Desk(page);
  await desk.slider('Seat height').focus();
  const counted = () => page.evaluate(() => performance.getEntriesByName('crestrail:step').length);
  const before = await counted();
  for (let i = 0; i < STEPS; i++) {
    await page.keyboard.press(i % 40 < 20 ? 'ArrowRight' : 'ArrowLeft');
    await page.waitForFunction((n) => performance.getEntriesByName('crestrail:step').length >= n, before + i + 1);
  }
  const durations = (at) => at.evaluate(() => performance.getEntriesByType('measure').map(({ name, duration }) => [name, duration]));
  const measures = [...(await durations(page)), ...(await durations(page.workers()[0]))];
  const names = [...new Set(measures.map(([name]) => name))].filter((name) => name.startsWith('crestrail:'));
  for (const name of names) row(name, measures.filter(([n]) => n === name).slice(-STEPS).map(([, took]) => took));
  for (const stage of ['resolve', 'report', 'picture', 'step']) assert.ok(names.includes(`crestrail:${stage}`), `no measure of ${stage}`);
  assert.deepEqual(faults, []);
  await context.close();
});

test('what the first view loads, and when it is there', async () => {
  const context = await here.browser.newContext({ serviceWorkers: 'block', locale: 'en-GB' });
  const page = await context.newPage();
  const answers = [];
  context.on('response', (answer) => answers.push(answer));
  await page.addInitScript(() => {
    const note = () => document.documentElement?.hasAttribute('data-ready') && (globalThis.readyAt ??= performance.now());
    new MutationObserver(note).observe(document, { attributes: true, subtree: true, attributeFilter: ['data-ready'] });
    new PerformanceObserver((list) => (globalThis.largest = list.getEntries().at(-1).startTime)).observe({ type: 'largest-contentful-paint', buffered: true });
  });
  await page.goto(here.server.address);
  await page.locator('html[data-ready]').waitFor();
  const took = await page.evaluate(() => ({ first: performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN, largest: globalThis.largest ?? NaN, live: globalThis.readyAt }));
  const bodies = await Promise.all(answers.filter((a) => a.ok()).map(async (a) => [a.url(), await a.body()]));
  const [chair, all] = [{ files: 0, bytes: 0, brotli: 0 }, { files: 0, bytes: 0, brotli: 0 }];
  const quality = { params: { [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY } };
  for (const [url, body] of bodies) {
    assert.ok(url.startsWith(here.server.address), `${url} is from elsewhere`);
    const brotli = brotliCompressSync(body, quality).length;
    for (const sum of BEFORE_PAINT.test(url) ? [chair, all] : [all]) {
      sum.files += 1;
      sum.bytes += body.length;
      sum.brotli += brotli;
    }
  }
  const told = ({ files, bytes, brotli }) => `${files} files, ${bytes} bytes, ${brotli} in brotli`;
  console.log(`first chair, price and verdict: ${told(chair)}, painted after ${took.first.toFixed(0)} ms, the largest part after ${took.largest.toFixed(0)} ms`);
  console.log(`until a first change can be answered: ${told(all)}, live after ${took.live.toFixed(0)} ms`);
  for (const name of ['crestrail_bg.wasm', 'worker.js', 'main.js']) {
    assert.ok(bodies.some(([url]) => url.endsWith(`/${name}`)), `${name} was not among them`);
  }
  assert.ok(!bodies.some(([url]) => url.endsWith('/crestrail.html')), 'the single file was loaded beside the page');
  assert.ok(chair.brotli < FIRST_CHAIR, `the first chair takes ${chair.brotli} bytes`);
  await context.close();
});
