// The core in wasm gives the same bytes as the native one: reports, pictures and refusals of all golden designs and of each
// kind of chair, and the files that are made of them.
const assert = require('node:assert/strict');
const { describe, test } = require('node:test');
const core = require('../out/node/crestrail.js');
const { digest, goldens, native, probe, stepped, views, written } = require('./native.js');

const kinds = Object.fromEntries(core.families().map(({ name }) => [name, { family: name }]));
const designs = { ...goldens, ...kinds };
const silent = () => {};

describe('native and wasm', () => {
  test('give the same bytes for each golden design and each kind of chair', () => {
    const expected = native(Object.values(designs));
    for (const [i, [name, design]] of Object.entries(designs).entries()) {
      const found = stepped(views.map((view) => core.step({ design, view })));
      // The whole difference is told by its fields where there is one; equal digests say that there is none to the last bit.
      if (written(found) !== written(expected[i])) assert.deepEqual(found, expected[i], name);
      assert.equal(digest(found), digest(expected[i]), name);
      assert.ok(found.report, name);
    }
    assert.ok(expected.length >= 16);
  });

  test('refuse in the same words', () => {
    // Its one cutter is too wide for thin laths.
    const [shop, design] = [{ ...core.demoShop(), cutters: [8] }, { back: 'laths', fill_thickness: 8 }];
    const [expected] = native([design], shop);
    assert.ok(expected.why && expected.knobs.includes('fill_thickness'));
    assert.deepEqual(stepped([core.step({ design, shop, view: {} })]), expected);
  });

  test('write the same files', () => {
    const design = goldens['tall back'];
    const asked = ['step', 'stl', 'glb'].map((format) => ({ format, name: 'Chair', stamp: '2026-01-01T00:00:00' }));
    const expected = probe(asked.map((wish) => ({ ask: 'exchange', design, ...wish })));
    for (const [i, wish] of asked.entries()) {
      const { ok } = core.exchange({ design, ...wish });
      assert.equal(Buffer.from(ok.bytes).toString('base64'), expected[i].ok.base64, wish.format);
    }
    const order = { crestrail: 'order/2', name: 'Six', customer: '', lines: [{ name: 'A', quantity: 6, knobs: core.step({ design, view: {}, want: ['report'] }).ok.report.design }] };
    const [{ ok: plan }, { ok: priced }] = probe([{ ask: 'plan', order, effort: 'quick' }, { ask: 'order', order }]);
    assert.equal(written(core.plan({ order, effort: 'quick', view: {} }, silent).ok.plan), written(plan), 'the timber plan');
    assert.equal(written(core.order({ order }).ok), written(priced), 'the price of an order');
  });

  test('a figure that differs in its last bit is found', () => {
    const other = JSON.parse('{"a":[0.1,{"b":-0.0}]}');
    assert.notEqual(digest(other), digest({ a: [0.1, { b: 0 }] }));
    assert.notEqual(digest(other), digest({ a: [0.1 + 2 ** -56, { b: -0 }] }));
    assert.equal(digest(other), digest({ a: [0.1, { b: -0, c: undefined }] }));
  });
});
