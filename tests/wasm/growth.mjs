// How a step and an order grow with their size in wasm, for the rows of tests/data/growth.json: `name median_ms p95_ms` a line,
// beside `measure growth`. The folder of the bindings for Node.js is the first argument.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { createRequire } from 'node:module';

const api = createRequire(import.meta.url)(resolve(process.argv[2], 'crestrail.js'));
const rows = JSON.parse(readFileSync(new URL('../data/growth.json', import.meta.url), 'utf8'));
const rounds = 60;
const orders = 3;

/** Whole steps over the seat heights that can be built. */
function steps(knobs) {
  const times = [];
  for (let round = 0; round < rounds; round += 1) {
    const request = { design: { ...knobs, seat_height: 400 + round }, view: { spread: 0.5 } };
    const start = performance.now();
    const built = Boolean(api.step(request).ok);
    if (built && round >= rounds / 10) times.push(performance.now() - start);
  }
  return times;
}

/** Bills of orders of so many chairs; other seat heights each time, so that no plan is recalled whole. */
function bills(knobs, quantity) {
  const times = [];
  for (let round = 0; round <= orders; round += 1) {
    const line = { name: '', quantity, knobs: { ...knobs, seat_height: 430 + round } };
    const order = { crestrail: 'order/2', name: '', customer: '', lines: [line] };
    const start = performance.now();
    const answer = api.order({ order });
    if (!answer.ok) throw new Error(JSON.stringify(answer.error));
    if (round > 0) times.push(performance.now() - start);
  }
  return times;
}

for (const { name, knobs, chairs } of rows) {
  const times = chairs ? bills(knobs, chairs) : steps(knobs);
  times.sort((a, b) => a - b);
  console.log(name, times[times.length >> 1].toFixed(4), times[Math.floor(times.length * 0.95)].toFixed(4));
}
