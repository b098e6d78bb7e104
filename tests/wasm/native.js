// The native core's answers, for tests that hold the core in wasm and in a browser to the same ones.
const { execFileSync } = require('node:child_process');
const { createHash } = require('node:crypto');
const { readFileSync } = require('node:fs');
const { join } = require('node:path');

const root = join(__dirname, '../..');

/** The golden designs by name. */
const goldens = JSON.parse(readFileSync(join(root, 'tests/data/designs.json'), 'utf8'));

/** How the chair is looked at: together and apart. */
const views = [{ turn: -32, tilt: 18, spread: 0 }, { turn: 140, tilt: -20, spread: 0.7, scheme: 'dark', colour: 'share' }];

/** Answers to requests, one line each. @param {object[]} requests */
function probe(requests) {
  const input = requests.map((request) => `${JSON.stringify(request)}\n`).join('');
  const command = ['run', '--quiet', '--package', 'crestrail-tests', '--bin', 'probe'];
  const said = execFileSync('cargo', command, { cwd: root, input, encoding: 'utf8', maxBuffer: 1 << 28 });
  return said.trim().split('\n').map((line) => JSON.parse(line));
}

/** What the native core says of designs: for each a report and pictures, or why it cannot be built. @param {object[]} designs @param {object} [shop] */
function native(designs, shop) {
  const asked = designs.flatMap((design) => [{ ask: 'report', design, shop }, ...views.map((options) => ({ ask: 'drawing', sheet: 'exploded', design, shop, options }))]);
  const answers = probe(asked);
  return designs.map((_, i) => {
    const [report, ...pictures] = answers.slice(i * (views.length + 1), (i + 1) * (views.length + 1));
    return report.error ? { why: report.error.why, knobs: report.error.knobs } : { report: report.ok, pictures: pictures.map(({ ok }) => ok.svg) };
  });
}

/** The same from the answers of `step`, one for each view. */
function stepped([first, ...others]) {
  if (first.error) return { why: first.error.why, knobs: first.error.knobs };
  return { report: first.ok.report, pictures: [first, ...others].map(({ ok }) => ok.picture) };
}

/** Plain data as bytes: names in order, numbers to their last bit, also the sign of nothing. @param {unknown} value @returns {string} */
function written(value) {
  if (Object.is(value, -0)) return '-0';
  if (Array.isArray(value)) return `[${value.map(written).join(',')}]`;
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  const fields = Object.entries(value).filter(([, item]) => item !== undefined);
  return `{${fields.sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, item]) => `${JSON.stringify(name)}:${written(item)}`).join(',')}}`;
}

/** The digest of plain data. */
const digest = (value) => createHash('sha256').update(written(value)).digest('hex');

module.exports = { digest, goldens, native, probe, stepped, views, written };
