// Times each stage of a design's way in wasm, over the same designs as the native bench:
// `stage median_ms p95_ms` a line. The folder of the bindings for Node.js is the first argument.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { createRequire } from 'node:module';

const api = createRequire(import.meta.url)(resolve(process.argv[2], 'crestrail.js'));
const rounds = 300;
const searches = 5;
const largest = { family: 'bench_three', arms: 'posts', back: 'laths', stretchers: 'box' };

/** An answer, if it is none of a refusal. */
function taken(answer) {
  if (answer.error) throw new Error(JSON.stringify(answer.error));
  return answer.ok;
}

/** Times of each stage of one design over its seat heights, asked as the page asks while a knob is moved. */
function measure(design) {
  const stages = { resolve: [], report: [], picture: [], whole: [], checks: [], frame: [] };
  for (let round = 0; round < rounds; round += 1) {
    const request = { design: { ...design, seat_height: 400 + (round % 100) }, view: { spread: 0.5 }, leave: ['sound'] };
    const start = performance.now();
    const { marks } = taken(api.step(request));
    const whole = performance.now() - start;
    const checks = taken(api.checkTimes(request));
    if (round < rounds / 10) continue;
    for (const [name, ms] of Object.entries({ ...marks, whole, ...checks })) stages[name].push(ms);
  }
  return stages;
}

/** Times of searches for the safe ranges of all knobs, and of their single slices as the worker cuts them. */
function search(design) {
  const times = { ranges: [], slice: [] };
  for (let round = 0; round <= searches; round += 1) {
    const start = performance.now();
    const found = taken(api.ranges({ design }));
    for (let done = false; !done; ) {
      const began = performance.now();
      while (!done && performance.now() - began < 8) ({ done } = found.step(1));
      if (round > 0) times.slice.push(performance.now() - began);
    }
    found.free();
    if (round > 0) times.ranges.push(performance.now() - start);
  }
  return times;
}

/** Times of each sheet of the drawing on A3 as SVG; resolving the chair is in them. */
function sheets(design) {
  const none = new Uint8Array();
  const times = {};
  for (const sheet of ['drawing-views', 'drawing-sections', 'drawing-parts']) {
    times[sheet] = [];
    for (let round = 0; round <= 20; round += 1) {
      const start = performance.now();
      taken(api.sheet({ design, sheet, format: 'svg', paper: 'a3' }, none, none));
      if (round > 0) times[sheet].push(performance.now() - start);
    }
  }
  return times;
}

/** Times of the bench book on A4 as PDF; resolving the chair is in them. */
function books(design) {
  const [regular, medium] = ['regular', 'medium'].map((weight) => readFileSync(new URL(`../../www/page/fonts/crestrail-sans-${weight}.ttf`, import.meta.url)));
  const times = { 'bench-book': [] };
  for (let round = 0; round <= 10; round += 1) {
    const start = performance.now();
    taken(api.benchBook({ design, paper: 'a4' }, () => {}, regular, medium));
    if (round > 0) times['bench-book'].push(performance.now() - start);
  }
  return times;
}

for (const [prefix, design] of [['', {}], ['bench:', largest]]) {
  for (const [name, times] of Object.entries({ ...measure(design), ...sheets(design), ...books(design), ...search(design) })) {
    times.sort((a, b) => a - b);
    const p95 = times[Math.floor(times.length * 0.95)];
    console.log(`${prefix}${name}`, times[times.length >> 1].toFixed(4), p95.toFixed(4));
  }
}
