// What the solvers of packing reach in wasm on one thread: problems proven, and milliseconds. The folder of the bindings
// for Node.js is the first argument.
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { createRequire } from 'node:module';

const api = createRequire(import.meta.url)(resolve(process.argv[2], 'crestrail.js'));
const data = (name) => JSON.parse(readFileSync(new URL(`../data/packing/${name}.json`, import.meta.url), 'utf8'));
/** Work far above what any of these problems takes. */
const ample = 3e9;
/** Work of one strip: less than two seconds. */
const strip = 1.2e9;

/** Answers to all problems as `[cost, bound, missing, work, ms]`. */
function timed(problems, solve) {
  return problems.map((problem) => {
    const began = process.cpuUsage();
    const answer = solve(problem);
    const { user, system } = process.cpuUsage(began);
    return [...answer, (user + system) / 1000];
  });
}

function report(name, answers, best) {
  const times = answers.map((answer) => answer[4]).sort((a, b) => a - b);
  const proven = answers.filter(([cost, bound]) => cost === bound).length;
  const quick = answers.filter(([cost, bound, , , ms]) => cost === bound && ms <= 1000).length;
  const at = best ? `${answers.filter(([cost], i) => cost === best[i]).length} at the best known, ` : '';
  console.log(`${name}: ${answers.length} problems, ${at}${proven} proven, ${quick} of them within 1 s; median ${times[times.length >> 1].toFixed(1)} ms, worst ${times.at(-1).toFixed(1)} ms`);
}

for (let seed = 0; seed < 3; seed += 1) api.barsOrder(seed, ample); // warms up
const seeds = [...Array(40).keys()];
report('bars workshop orders', timed(seeds, (seed) => api.barsOrder(seed, ample)));
for (const name of ['falkenauer_u120', 'falkenauer_t60', 'scholl1_sample', 'schwerin1']) {
  const rows = data(name);
  const solve = ({ cap, items }) => api.barsAlike(cap, Float64Array.from(items, (i) => i[0]), Uint32Array.from(items, (i) => i[1]), ample);
  const best = rows.every((row) => 'best' in row) ? rows.map((row) => row.best) : undefined;
  report(`bars ${name}`, timed(rows, solve), best);
}
const strips = data('hopper_T_sample');
const sides = (items, side) => Float64Array.from(items, (i) => i[side]);
const laid = timed(strips, ({ items }) => api.oneBoard(205, 200, sides(items, 1), sides(items, 0), strip));
const above = strips.filter((_, i) => laid[i][2] > 0).map((row) => row.name);
const slowest = Math.max(...laid.map((answer) => answer[4]));
console.log(`boards strips of Hopper's T within 205: ${strips.length - above.length} of ${strips.length}, above it ${above.join(', ') || 'none'}; worst ${slowest.toFixed(0)} ms`);
