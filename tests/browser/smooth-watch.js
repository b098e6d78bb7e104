// What a page makes people wait for: tasks of its main thread with their processor time, from the browser's own trace; interactions to
// their next paint; shifts of the layout; and what it keeps.

/** A task longer than this is felt, ms. */
export const FELT = 50;

const CATEGORIES = ['devtools.timeline', 'disabled-by-default-devtools.timeline', 'blink.user_timing', 'loading', 'v8'];
const MICROSECONDS = 1000;

/** Traces the whole browser until `stop`, which gives the tasks of the page's main thread. @param {import('playwright-core').Browser} browser */
export async function trace(browser) {
  const session = await browser.newBrowserCDPSession();
  /** @type {any[]} */
  const events = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...value));
  await session.send('Tracing.start', { transferMode: 'ReportEvents', traceConfig: { recordMode: 'recordAsMuchAsPossible', includedCategories: CATEGORIES } });
  return {
    async stop() {
      const done = new Promise((settle) => session.once('Tracing.tracingComplete', settle));
      await session.send('Tracing.end');
      await done;
      await session.detach();
      return read(events);
    },
  };
}

/** @param {any[]} events */
function read(events) {
  const mains = new Set(events.filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain').map(({ pid, tid }) => `${pid} ${tid}`));
  const own = events.filter(({ pid, tid, ph }) => ph === 'X' && mains.has(`${pid} ${tid}`));
  const within = own.filter(({ name }) => name !== 'RunTask').sort((a, b) => a.ts - b.ts);
  const tasks = own
    .filter(({ name, tdur }) => name === 'RunTask' && tdur !== undefined)
    .map((task) => ({ at: task.ts / MICROSECONDS, wall: task.dur / MICROSECONDS, inside: insideOf(task, within) }))
    .map(({ inside, ...task }) => ({ ...task, cpu: ownOf(inside), does: () => workOf(inside) }))
    .sort((a, b) => a.at - b.at);
  const marks = events.filter(({ name, cat }) => cat.includes('blink.user_timing') && String(name).startsWith('use:')).map(({ name, ts }) => ({ name: name.slice(4), at: ts / MICROSECONDS }));
  const sameAs = (/** @type {any} */ { pid, id, id2 }) => `${pid} ${id2?.local ?? id}`;
  const ends = events.filter(({ name, ph }) => name === 'EventTiming' && ph === 'e').sort((a, b) => a.ts - b.ts);
  const inputs = events
    .filter(({ name, ph, args }) => name === 'EventTiming' && ph === 'b' && args.data?.interactionId > 0)
    .map((begin) => {
      const { ts, args, pid } = begin;
      const end = ends.find((other) => other.ts >= ts && sameAs(other) === sameAs(begin));
      return { at: ts / MICROSECONDS, end: (end?.ts ?? ts) / MICROSECONDS, kind: args.data.type, interaction: `${pid} ${args.data.interactionId}` };
    });
  return { tasks, marks: marks.sort((a, b) => a.at - b.at), inputs: interactions(inputs, tasks) };
}

/** The longest of the events of each interaction, and the processor time of the main thread's tasks from input to paint. */
function interactions(inputs, tasks) {
  const longest = new Map();
  for (const one of inputs) if (!(longest.get(one.interaction)?.end - longest.get(one.interaction)?.at >= one.end - one.at)) longest.set(one.interaction, one);
  return [...longest.values()].map(({ at, end, kind }) => ({
    at,
    kind,
    wall: end - at,
    cpu: tasks.filter((task) => task.at + task.wall > at && task.at < end).reduce((sum, { cpu }) => sum + cpu, 0),
  }));
}

/** What happens within a task, in order; both are sorted. */
function insideOf({ ts, dur, pid, tid }, within) {
  let [low, high] = [0, within.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (within[middle].ts < ts) low = middle + 1;
    else high = middle;
  }
  const inside = [];
  for (let i = low; i < within.length && within[i].ts <= ts + dur; i += 1) if (within[i].pid === pid && within[i].tid === tid && within[i].ts + within[i].dur <= ts + dur) inside.push(within[i]);
  return inside;
}

/** What a page itself does: what the test asks it through the tools of developers is none of these. */
const OWN = /^(HandlePostMessage|EventDispatch|FireAnimationFrame|TimerFire|FireIdleCallback|FunctionCall|RunMicrotasks|EvaluateScript|v8\.evaluateModule|v8\.compile\w*|ParseHTML|UpdateLayoutTree|Layout|PrePaint|Paint|Layerize|Commit|HitTest|IntersectionObserverController::computeIntersections)$/;

/** Processor time of the outermost of what the page does, ms. */
function ownOf(inside) {
  let [sum, until] = [0, 0];
  for (const { name, ts, dur, tdur = 0, args } of inside) {
    if (ts < until || !OWN.test(name) || String(args?.data?.type).startsWith('__playwright')) continue;
    sum += tdur / MICROSECONDS;
    until = ts + dur;
  }
  return sum;
}

/** What took most of a task's processor time, in words. */
function workOf(inside) {
  const sums = new Map();
  for (const { name, args, tdur = 0 } of inside) {
    const { functionName, url, type } = args?.data ?? {};
    const what = [name, functionName ?? type, url?.split('/').pop()].filter(Boolean).join(' ');
    sums.set(what, (sums.get(what) ?? 0) + tdur / MICROSECONDS);
  }
  return [...sums].sort((a, b) => b[1] - a[1]).slice(0, 5).map(([what, took]) => `${what} ${took.toFixed(0)}`).join(', ');
}

/** Notes every shift of the layout from the very beginning; to be put into a context before its page is opened. @param {import('playwright-core').BrowserContext} context */
export async function watchShifts(context) {
  await context.addInitScript(() => {
    const shifts = (globalThis.shifts = []);
    const tell = (node) => (node?.nodeType === 1 ? `${node.tagName.toLowerCase()}${node.id && `#${node.id}`}.${[...node.classList].join('.')}` : String(node?.nodeName));
    new PerformanceObserver((list) => {
      for (const { value, hadRecentInput, startTime, sources } of list.getEntries()) {
        shifts.push({ value, hadRecentInput, at: startTime, moved: sources.map(({ node, previousRect: was, currentRect: now }) => `${tell(node)} ${[was.x, was.y, was.width, was.height].map(Math.round)} to ${[now.x, now.y, now.width, now.height].map(Math.round)}`) });
      }
    }).observe({ type: 'layout-shift', buffered: true });
  });
}

/** @param {import('playwright-core').Page} page */
export const shiftsOf = (page) => page.evaluate(() => globalThis.shifts);

/** What the page keeps after its rubbish is collected. @param {import('playwright-core').Page} page */
export async function kept(page) {
  const session = await page.context().newCDPSession(page);
  await session.send('HeapProfiler.collectGarbage');
  await session.send('Performance.enable');
  const { metrics } = await session.send('Performance.getMetrics');
  const of = (wanted) => metrics.find(({ name }) => name === wanted)?.value ?? 0;
  await session.detach();
  return { heap: of('JSHeapUsedSize') / 1e6, nodes: of('Nodes'), listeners: of('JSEventListeners'), wasm: await wasmOf(page) };
}

/** The memory of the core that answers the knobs, MB. @param {import('playwright-core').Page} page */
async function wasmOf(page) {
  const [worker] = page.workers();
  if (!worker) return 0;
  return worker.evaluate(async () => {
    const glue = await import(new URL('./crestrail.js', self.location.href).href);
    return (await glue.default()).memory.buffer.byteLength / 1e6;
  });
}

/** Slows the page's processor down. @param {import('playwright-core').Page} page @param {number} rate */
export async function throttle(page, rate) {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
}
