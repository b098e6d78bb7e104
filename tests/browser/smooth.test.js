// The short part of what `smooth.mjs` prints: what cannot hang on how busy the machine is.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Desk } from './desk.js';
import { ready, sizes, together } from './harness.js';
import { kept, shiftsOf, trace, watchShifts } from './smooth-watch.js';
import { drag, habits } from './smooth-use.js';

const STEPS = 300;
/** Far above what any task of the page takes: a loop that draws everything at once is seen, a busy machine is not. Processor time, ms. */
const TASK = 400;

const here = together();

/** The page with all that it draws by itself: the drawings of the kinds come last. */
async function opened() {
  const context = await here.browser.newContext({ viewport: sizes.desk, locale: 'en-GB', serviceWorkers: 'block' });
  await watchShifts(context);
  const page = await context.newPage();
  await page.goto(here.server.address);
  await ready(page);
  await page.waitForFunction(() => document.querySelectorAll('.kind').length === document.querySelectorAll('.kind-picture > svg').length);
  return { context, page, desk: new Desk(page) };
}

test('nothing on the page shifts while it opens, while knobs are turned and sizes dragged', async () => {
  const { context, page, desk } = await opened();
  await habits.sliders(desk, page);
  await habits.typing(desk);
  await drag(page, page.getByRole('slider', { name: 'Seat height, on the picture', exact: true }), 0, -30);
  await page.waitForTimeout(1500);
  const shifts = (await shiftsOf(page)).filter(({ value, hadRecentInput }) => value > 0.0005 && !hadRecentInput);
  assert.deepEqual(shifts, []);
  await context.close();
});

test(`nothing is left behind by ${STEPS} steps of a knob`, async () => {
  const { context, page, desk } = await opened();
  await desk.slider('Seat height').focus();
  const turn = async (/** @type {number} */ count) => {
    for (let i = 0; i < count; i += 1) await page.keyboard.press(i % 40 < 20 ? 'ArrowRight' : 'ArrowLeft');
    await desk.shown();
    await page.waitForTimeout(400);
  };
  await turn(80);
  const before = await kept(page);
  await turn(STEPS - STEPS % 40);
  const after = await kept(page);
  assert.equal(after.listeners, before.listeners, 'listeners');
  assert.ok(Math.abs(after.nodes - before.nodes) <= before.nodes * 0.05, `nodes: ${before.nodes}, then ${after.nodes}`);
  assert.ok(after.heap <= before.heap + 3, `JS heap: ${before.heap} MB, then ${after.heap} MB`);
  assert.ok(after.wasm <= before.wasm + 4, `the core's memory: ${before.wasm} MB, then ${after.wasm} MB`);
  await context.close();
});

test('no task of the main thread is long, whatever is opened', async () => {
  const { context, page, desk } = await opened();
  const tracing = await trace(here.browser);
  for (const name of ['kinds', 'tabs']) await habits[name](desk, page);
  const { tasks } = await tracing.stop();
  assert.ok(tasks.length > 100, 'the trace holds tasks');
  const long = tasks.filter(({ cpu }) => cpu > TASK).map((task) => `${task.cpu.toFixed(0)} ms: ${task.does()}`);
  assert.deepEqual(long, []);
  await context.close();
});
