// The page's own worker in a browser gives the same bytes as the native core: another compiler of wasm, another machine beneath.
import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { after, before, test } from 'node:test';
import { browse } from './harness.js';
import { withModules } from './site.js';

const { digest, goldens, native, stepped, views, written } = createRequire(import.meta.url)('../wasm/native.js');

const here = {};
before(async () => {
  [here.browser, here.server] = await Promise.all([browse(), withModules()]);
});
after(() => Promise.all([here.browser.close(), here.server.stop()]));

/** A handful: the default, the tallest, the one whose sizes give way, and the kinds with the most and the fewest parts. */
const designs = {
  default: goldens.default,
  'tall back': goldens['tall back'],
  'too thick for its legs': goldens['too thick for its legs'],
  bench: { family: 'bench_three', arms: 'posts', back: 'laths', stretchers: 'box' },
  stool: { family: 'stool', seat: 'cord' },
};

test("the page's worker gives the native core's bytes", async () => {
  const expected = native(Object.values(designs));
  const context = await here.browser.newContext({ locale: 'en-GB' });
  const page = await context.newPage();
  const faults = [];
  page.on('pageerror', ({ message }) => faults.push(message));
  // Beside the page, whose own script has taken the one name that trusted addresses may have.
  here.server.pages.set('/bare.html', '<!doctype html><title>bare</title>');
  await page.goto(`${here.server.address}/bare.html`);
  const answers = await page.evaluate(
    async ({ designs, views }) => {
      const { Bridge } = await import(new URL('./modules/bridge.js', location.href).href);
      const bridge = new Bridge();
      const all = [];
      for (const design of designs) {
        const answers = [];
        for (const view of views) answers.push(await bridge.ask('step', { design, view }));
        all.push(answers);
      }
      bridge.end();
      return all;
    },
    { designs: Object.values(designs), views },
  );
  for (const [i, name] of Object.keys(designs).entries()) {
    const found = stepped(answers[i]);
    if (written(found) !== written(expected[i])) assert.deepEqual(found, expected[i], name);
    assert.equal(digest(found), digest(expected[i]), name);
  }
  assert.ok(expected.every(({ report }) => report));
  assert.deepEqual(faults, []);
  await context.close();
});
