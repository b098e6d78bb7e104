// The page's own worker in a browser gives the same bytes as the native core: another compiler of wasm, another machine beneath.
import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { test } from 'node:test';
import { open, together } from './harness.js';

const { digest, goldens, native, stepped, views, written } = createRequire(import.meta.url)('../wasm/native.js');

const here = together();

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
  const { page, context, faults } = await open(here.browser, here.server.address);
  const answers = await page.evaluate(
    async ({ designs, views }) => {
      const { Bridge } = await import(new URL('./bridge.js', location.href).href);
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
