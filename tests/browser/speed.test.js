// Figures, printed and not judged: a busy machine must not fail a test. What is judged is that there
// are figures, and that the first view loads from one place no more than is packed for it.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { brotliCompressSync, constants } from 'node:zlib';
import { Desk } from './desk.js';
import { open, quantile, together } from './harness.js';

const STEPS = 200;

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

test('all that the first view loads', async () => {
  const context = await here.browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  const answers = [];
  context.on('response', (answer) => answers.push(answer));
  await page.addInitScript(() => {
    const note = () => document.documentElement?.hasAttribute('data-ready') && (globalThis.readyAt ??= performance.now());
    new MutationObserver(note).observe(document, { attributes: true, subtree: true, attributeFilter: ['data-ready'] });
  });
  await page.goto(here.server.address);
  await page.locator('html[data-ready]').waitFor();
  const took = await page.evaluate(() => globalThis.readyAt);
  const bodies = await Promise.all(answers.filter((a) => a.ok()).map(async (a) => [a.url(), await a.body()]));
  const quality = { params: { [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY } };
  const total = { bytes: 0, brotli: 0 };
  for (const [url, body] of bodies) {
    total.bytes += body.length;
    total.brotli += brotliCompressSync(body, quality).length;
    assert.ok(url.startsWith(here.server.address), `${url} is from elsewhere`);
  }
  console.log(`first view: ${bodies.length} files, ${total.bytes} bytes, ${total.brotli} in brotli, on screen after ${took.toFixed(0)} ms`);
  for (const name of ['crestrail_bg.wasm', 'worker.js', 'main.js']) {
    assert.ok(bodies.some(([url]) => url.endsWith(`/${name}`)), `${name} was not among them`);
  }
  assert.ok(!bodies.some(([url]) => url.endsWith('/crestrail.html')), 'the single file was loaded beside the page');
  await context.close();
});
