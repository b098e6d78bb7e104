// Prints how smooth the packed page is: `node tests/browser/smooth.mjs [--times 4] [--minutes 2] [--steps 10000] [--only kinds,tabs]`.
//
// Processor times (CPU) are those of a processor `times` slower: multiplied, since the browser's own throttling burns time by the clock on
// the wall, which a busy machine stretches. With `--throttle` the browser's is on besides, for the time on the wall on an idle machine.
// Nothing passes or fails here.
import { parseArgs } from 'node:util';
import { Desk } from './desk.js';
import { browse, dist, quantile, ready, sizes } from './harness.js';
import { host } from './site.js';
import { FELT, kept, shiftsOf, throttle, trace, watchShifts } from './smooth-watch.js';
import { habits } from './smooth-use.js';

const { values } = parseArgs({ options: { times: { type: 'string', default: '4' }, throttle: { type: 'string', default: '1' }, minutes: { type: 'string', default: '2' }, steps: { type: 'string', default: '10000' }, only: { type: 'string' } } });
const wanted = Object.entries(habits).filter(([name]) => !values.only || values.only.split(',').includes(name));
const [browser, server] = await Promise.all([browse(), host({ '/': `${dist}/` })]);

async function opened() {
  const context = await browser.newContext({ viewport: sizes.desk, locale: 'en-GB', serviceWorkers: 'block' });
  await watchShifts(context);
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  await page.goto(`${server.address}/`);
  await ready(page);
  return { context, page, desk: new Desk(page) };
}

async function use() {
  const { context, page, desk } = await opened();
  await page.waitForTimeout(1500);
  await throttle(page, Number(values.throttle));
  const tracing = await trace(browser);
  /** @type {any[]} */
  const shifts = [];
  const began = performance.now();
  const all = /** @type {any[]} */ ([]);
  do {
    for (const [name, habit] of wanted) {
      await page.evaluate((mark) => performance.mark(`use:${mark}`), name);
      const before = (await shiftsOf(page)).length;
      await habit(desk, page);
      await page.waitForTimeout(700);
      // A page that was loaded anew counts from its own beginning.
      const now = await shiftsOf(page);
      all.push(...(now.length >= before ? now.slice(before) : now).map((shift) => ({ ...shift, habit: name })));
    }
  } while (performance.now() - began < Number(values.minutes) * 60_000);
  shifts.push(...all);
  const seen = await tracing.stop();
  await context.close();
  const slower = (/** @type {any[]} */ list) => list.map((one) => ({ ...one, cpu: one.cpu * Number(values.times) }));
  return { ...seen, tasks: slower(seen.tasks), inputs: slower(seen.inputs), shifts, took: performance.now() - began };
}

function tell({ tasks, marks, inputs, shifts, took }) {
  const habitAt = (at) => marks.findLast((mark) => mark.at <= at)?.name ?? 'start';
  console.log(`${(took / 1000).toFixed(0)} s of use, CPU times ${values.times}, ${tasks.length} tasks`);
  const line = (name, list, of) => console.log(`${name.padEnd(34)} p50 ${quantile(list.map(of), 0.5)?.toFixed(1)}  p95 ${quantile(list.map(of), 0.95)?.toFixed(1)}  most ${Math.max(...list.map(of)).toFixed(1)} ms`);
  if (inputs.length > 0) {
    line(`${inputs.length} interactions, CPU to paint`, inputs, ({ cpu }) => cpu);
    line(`${inputs.length} interactions, wall to paint`, inputs, ({ wall }) => wall);
  }
  const long = tasks.filter(({ cpu }) => cpu > FELT);
  console.log(`tasks over ${FELT} ms: ${long.length} by CPU, ${tasks.filter(({ wall }) => wall > FELT).length} by wall`);
  for (const task of [...long].sort((a, b) => b.cpu - a.cpu).slice(0, 25)) console.log(`  ${task.cpu.toFixed(0).padStart(5)} CPU ${task.wall.toFixed(0).padStart(5)} wall  ${habitAt(task.at).padEnd(11)} ${task.does()}`);
  for (const input of [...inputs].filter(({ cpu }) => cpu > FELT).sort((a, b) => b.cpu - a.cpu).slice(0, 12)) console.log(`  input ${input.kind} ${input.cpu.toFixed(0)} CPU ${input.wall.toFixed(0)} wall ${habitAt(input.at)}`);
  console.log(`layout shifts: ${shifts.length}, sum ${shifts.reduce((sum, { value }) => sum + value, 0).toFixed(4)}; without input before them ${shifts.filter(({ hadRecentInput }) => !hadRecentInput).length}`);
  for (const { value, habit, hadRecentInput, moved } of shifts.slice(0, 30)) console.log(`  ${value.toFixed(4)} ${habit}${hadRecentInput ? ' after input' : ''}: ${moved.join('; ')}`);
}

async function steps(count) {
  const { context, page, desk } = await opened();
  await desk.slider('Seat height').focus();
  console.log('\nsteps      JS heap MB   nodes  listeners  wasm MB');
  for (let done = 0; done <= count; done += 1) {
    if (done % Math.max(1, Math.floor(count / 10)) === 0) row(done, await kept(page));
    const before = await page.evaluate(() => performance.getEntriesByName('crestrail:step').at(-1)?.startTime ?? 0);
    await page.keyboard.press(done % 80 < 40 ? 'ArrowRight' : 'ArrowLeft');
    await page.waitForFunction((was) => (performance.getEntriesByName('crestrail:step').at(-1)?.startTime ?? 0) > was, before, { polling: 1 });
  }
  await context.close();
}

function row(done, { heap, nodes, listeners, wasm }) {
  console.log(`${String(done).padStart(6)} ${heap.toFixed(2).padStart(12)} ${String(nodes).padStart(9)} ${String(listeners).padStart(10)} ${wasm.toFixed(1).padStart(8)}`);
}

try {
  if (Number(values.minutes) > 0) tell(await use());
  if (Number(values.steps) > 0) await steps(Number(values.steps));
} finally {
  await browser.close();
  await server.stop();
}
