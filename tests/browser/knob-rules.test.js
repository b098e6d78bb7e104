// Which knobs have something to say, from rows of a table alone.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { browse, open } from './harness.js';
import { withModules } from './site.js';

const choice = (name, group, names, applies) => ({ name, group, kind: 'choice', default: names[0], choices: names.map((n) => ({ name: n, label: n })), applies });
const range = (name, group, applies) => ({ name, group, kind: 'range', min: 0, max: 9, step: 1, default: 1, applies });
const leans = { knob: 'back', any: ['slats', 'laths'] };
const table = [
  range('height', 'size'),
  choice('back', 'back', ['slats', 'laths', 'open']),
  choice('crest', 'back', ['straight', 'curved'], [leans]),
  range('rise', 'back', [leans, { knob: 'crest', any: ['curved'] }]),
  range('splat', 'back', [{ knob: 'back', any: ['splat'] }]),
  choice('arms', 'arms', ['none']),
  range('arm_height', 'arms', [{ knob: 'arms', any: ['legs', 'posts'] }]),
];

let browser;
let server;
let opened;
before(async () => {
  [browser, server] = await Promise.all([browse(), withModules()]);
  opened = await open(browser, `${server.address}/`);
});
after(async () => {
  await browser.close();
  await server.stop();
});

/** Which knobs of the table have an effect in a design. */
const applying = (design) =>
  opened.page.evaluate(
    async ([rows, values]) => {
      const { applies } = await import(new URL('./modules/knob-rules.js', location.href).href);
      return rows.filter((row) => applies(row, values)).map(({ name }) => name);
    },
    [table, design],
  );

test('a knob without rules always applies, and with several only while all hold', async () => {
  const always = ['height', 'back', 'arms'];
  assert.deepEqual(await applying({}), always);
  assert.deepEqual(await applying({ back: 'open', crest: 'curved' }), always);
  assert.deepEqual(await applying({ back: 'slats', crest: 'straight' }), ['height', 'back', 'crest', 'arms']);
  assert.deepEqual(await applying({ back: 'laths', crest: 'curved' }), ['height', 'back', 'crest', 'rise', 'arms']);
});

test('what a kind never offers has no knob, and a group without knobs is none', async () => {
  const groups = await opened.page.evaluate(async (rows) => {
    const { grouped, turnable } = await import(new URL('./modules/knob-rules.js', location.href).href);
    return grouped(turnable(rows)).map((knobs) => knobs.map(({ name }) => name));
  }, table);
  assert.deepEqual(groups, [['height'], ['back', 'crest', 'rise']]);
});
