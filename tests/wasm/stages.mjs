// Times each stage of a design's way in wasm, over the same designs as the native bench:
// `stage median_ms p95_ms` a line. The folder of the bindings for Node.js is the first argument.
import { resolve } from 'node:path';
import { createRequire } from 'node:module';

const api = createRequire(import.meta.url)(resolve(process.argv[2], 'crestrail.js'));
const rounds = 300;
const largest = { family: 'bench_three', arms: 'posts', back: 'laths', stretchers: 'box' };

/** Times of each stage of one design over its seat heights. */
function measure(design) {
  const stages = { resolve: [], report: [], picture: [], whole: [] };
  for (let round = 0; round < rounds; round += 1) {
    const request = { design: { ...design, seat_height: 400 + (round % 100) }, view: { spread: 0.5 } };
    const start = performance.now();
    const answer = api.step(request);
    const whole = performance.now() - start;
    if (answer.error) throw new Error(JSON.stringify(answer.error));
    if (round < rounds / 10) continue;
    for (const [name, ms] of Object.entries({ ...answer.ok.marks, whole })) stages[name].push(ms);
  }
  return stages;
}

for (const [prefix, design] of [['', {}], ['bench:', largest]]) {
  for (const [name, times] of Object.entries(measure(design))) {
    times.sort((a, b) => a - b);
    const p95 = times[Math.floor(times.length * 0.95)];
    console.log(`${prefix}${name}`, times[times.length >> 1].toFixed(4), p95.toFixed(4));
  }
}
