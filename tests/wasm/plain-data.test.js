// The core's plain data, called from Node.js: every call, and what no caller should send.
const assert = require('node:assert/strict');
const { describe, test } = require('node:test');
const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const core = require('../out/node/crestrail.js');

const view = { turn: -32, tilt: 18, spread: 0, scheme: 'light', letters: true };
const knobs = core.knobs().ok;
const families = core.families();
const defaults = Object.fromEntries(knobs.map((knob) => [knob.name, knob.default]));
const silent = () => {};

/** The answer's contents. */
function ok(answer) {
  assert.deepEqual(Object.keys(answer), ['ok'], JSON.stringify(answer.error));
  return answer.ok;
}

/** The refusal's words, which must be there with the name of a field. */
function refused(answer) {
  assert.deepEqual(Object.keys(answer), ['error']);
  assert.ok(answer.error.where, JSON.stringify(answer));
  assert.match(answer.error.why, /^["“\w].{10,}[.?]$/s);
  return answer.error;
}

/** Whether a value is what a message between threads can carry unchanged. */
const isPlain = (value) => assert.deepEqual(structuredClone(value), value);

describe('knobs', () => {
  test('every row has what a control is made from', () => {
    assert.ok(knobs.length >= 20, `${knobs.length} knobs`);
    assert.equal(new Set(knobs.map(({ name }) => name)).size, knobs.length);
    for (const knob of knobs) {
      for (const text of ['name', 'label', 'help', 'group', 'groupLabel']) assert.ok(knob[text], `${knob.name}: ${text}`);
      if (knob.kind === 'choice') {
        assert.ok(knob.choices.some(({ name }) => name === knob.default), knob.name);
      } else {
        assert.ok(['range', 'count'].includes(knob.kind), knob.name);
        assert.ok(knob.min < knob.max && knob.step > 0 && knob.default >= knob.min && knob.default <= knob.max, knob.name);
      }
      for (const rule of knob.applies ?? []) checkRule(rule, knob.name);
    }
    isPlain(knobs);
  });

  /** A rule names a choice of the table and some of the names that any kind of chair knows for it. */
  function checkRule({ knob, any }, name) {
    assert.equal(knobs.find((row) => row.name === knob)?.kind, 'choice', name);
    assert.ok(any.length > 0 && any.every((value) => typeof value === 'string'), name);
  }
});

describe('kinds of chair', () => {
  const valuesOf = (family) => Object.fromEntries(ok(core.knobs(family)).map((knob) => [knob.name, knob.default]));

  test('each has a table of the same knobs, which allows itself only', () => {
    assert.equal(families.length, 8);
    isPlain(families);
    assert.deepEqual(ok(core.knobs('side_chair')), knobs);
    for (const { name, label } of families) {
      assert.ok(label, name);
      const table = ok(core.knobs(name));
      assert.deepEqual(table.map((knob) => knob.name), knobs.map((knob) => knob.name), name);
      assert.deepEqual(table.find((knob) => knob.name === 'family').choices.map((choice) => choice.name), [name]);
    }
    for (const wrong of ['sofa', '', 3, {}]) refused(core.knobs(wrong));
  });

  test('each can be built in its first values and drawn', () => {
    for (const { name } of families) {
      const { report, picture } = ok(core.step({ design: { family: name }, view }));
      assert.deepEqual(report.design, valuesOf(name), name);
      assert.match(picture, /^<svg/);
    }
  });

  test('a design turned into another kind keeps what fits and tells what does not', () => {
    const design = { ...defaults, seat_height: 470, rail_thickness: 26 };
    const { design: turned, dropped } = ok(core.turnInto({ design, family: 'bar_chair' }));
    assert.deepEqual(turned, { ...valuesOf('bar_chair'), rail_thickness: 26 });
    assert.deepEqual(dropped, [{ knob: 'seat_height', was: 470, now: turned.seat_height }]);
    for (const { name } of families) {
      assert.deepEqual(ok(core.turnInto({ design: defaults, family: name })), { design: valuesOf(name), dropped: [] });
    }
    for (const request of [{ design }, { design, family: 'sofa' }, { family: 'stool' }, { design: { wings: 1 }, family: 'stool' }, null]) {
      refused(core.turnInto(request));
    }
  });

  test('a link and a file keep the kind', () => {
    for (const { name } of families) {
      const design = { ...valuesOf(name), chamfer: 3 };
      assert.deepEqual(ok(core.readLink(ok(core.writeLink(design)))).design, design);
      assert.deepEqual(ok(core.readDesign(ok(core.writeDesign(design, '')))).design, design);
    }
  });
});

describe('step', () => {
  test('gives what is wanted and times it', () => {
    const all = ok(core.step({ design: defaults, view }));
    assert.equal(all.report.crestrail, 'report/1');
    assert.deepEqual(all.report.design, defaults);
    assert.match(all.picture, /^<svg/);
    assert.deepEqual(Object.keys(all.marks).sort(), ['picture', 'report', 'resolve']);
    isPlain(all);
    const [report, picture] = [['report'], ['picture']].map((want) => ok(core.step({ design: defaults, view, want })));
    assert.ok(report.report && report.picture === undefined);
    assert.ok(picture.picture && picture.report === undefined);
  });

  test('leaves out the checks that are sound where it is asked to, and counts them', () => {
    const [all, some] = [undefined, ['sound']].map((leave) => ok(core.step({ design: defaults, view, leave })).report);
    const doubts = all.findings.filter(({ verdict }) => verdict !== 'sound');
    assert.equal(all.sound, all.findings.length - doubts.length);
    assert.ok(all.sound > 10);
    assert.deepEqual(some, { ...all, findings: doubts });
  });

  test('measures every stage under its name', () => {
    performance.clearMeasures();
    core.step({ design: defaults, view });
    const names = performance.getEntriesByType('measure').map(({ name }) => name);
    assert.deepEqual(names, ['crestrail:resolve', 'crestrail:report', 'crestrail:picture']);
  });

  test('a knob that is not named has its default, and the same question has the same answer', () => {
    const [some, whole] = [{}, defaults].map((design) => ok(core.step({ design, view })));
    assert.deepEqual(some.report, whole.report);
    assert.equal(some.picture, whole.picture);
  });

  test('every value outside a knob’s range is refused with the knob’s name and its range', () => {
    for (const { name, kind, min, max } of knobs) {
      const wrong = kind === 'choice' ? [3, null, 'no such', ''] : [min - 1, max + 1, NaN, Infinity, null, undefined, '7', [], {}, true];
      if (kind === 'count') wrong.push(min + 0.5);
      for (const value of wrong) {
        const error = refused(core.step({ design: { ...defaults, [name]: value }, view }));
        assert.equal(error.where, name, `${name} = ${String(value)}`);
        if (typeof value === 'number' && Number.isInteger(value)) {
          if (kind === 'choice') continue;
          assert.deepEqual([error.mend.knob, error.mend.value], [name, Math.min(max, Math.max(min, value))]);
        }
      }
    }
  });

  test('what is no request is refused', () => {
    for (const request of [undefined, null, 3, 'x', [], {}, { design: null }, { design: 'x' }, { design: { wings: 1 } }, { design: () => 1 }]) {
      refused(core.step(request));
    }
    refused(core.step({ design: defaults, view, shop: { crestrail: 'shop/9' } }));
  });

  test('what cannot be built names the knobs that clash, and the nearest value mends it', () => {
    let mended = 0;
    for (const clash of corners(60)) {
      const answer = core.step({ design: clash, view });
      if (answer.ok) continue;
      const error = refused(answer);
      assert.ok(error.stage);
      assert.ok(error.knobs.length > 0 && error.knobs.every((name) => Object.hasOwn(defaults, name)), JSON.stringify(error));
      const told = [];
      const found = core.nearest({ design: clash }, (...news) => told.push(news));
      assert.ok(told.length >= 2 && told.at(-1)[0] === told.at(-1)[1], JSON.stringify(told));
      if (found.error) continue;
      const { knob, value, say } = found.ok;
      assert.ok(Object.hasOwn(defaults, knob) && say, JSON.stringify(found));
      ok(core.step({ design: { ...clash, [knob]: value }, view }));
      mended++;
    }
    assert.ok(mended > 0, 'no clash was mended');
    refused(core.nearest({ design: defaults }, silent));
  });

  test('a design is made to fit, tells what was set, and can be built', () => {
    const design = { ...defaults, sits: 'adult', stature: 1900, table: 'none' };
    const told = [];
    const made = ok(core.makeItFit({ design }, (...news) => told.push(news)));
    isPlain(made);
    assert.ok(told.length >= 2);
    for (const { knob, was, now } of made.changed) assert.deepEqual([was, now], [design[knob], made.design[knob]]);
    assert.ok(made.changed.some(({ knob }) => knob === 'seat_height'));
    assert.deepEqual(made.unmet, []);
    const { report } = ok(core.step({ design: made.design, view, want: ['report'] }));
    assert.ok(report.fit.rows.every(({ verdict }) => verdict === 'sound'));
    refused(core.makeItFit({ design: { wings: 1 } }, silent));
  });

  test('corners of the knob box are chairs or named refusals', () => {
    let [built, clashes] = [0, 0];
    for (const ends of corners(400)) {
      const answer = core.step({ design: ends, view });
      if (answer.ok) built++;
      else clashes += refused(answer).where === 'build' ? 1 : 0;
    }
    assert.equal(built + clashes, 400);
    assert.ok(built > 0, 'no corner can be built');
  });
});

/** Designs with every knob at one of its ends, from a fixed run of numbers (Park and Miller’s generator). */
function* corners(count) {
  let state = 20_431;
  const coin = () => (state = (state * 48_271) % 2_147_483_647) % 2;
  for (let i = 0; i < count; i++) {
    const end = ({ kind, min, max, choices }) => (kind === 'choice' ? choices[coin() * (choices.length - 1)].name : [min, max][coin()]);
    yield Object.fromEntries(knobs.map((knob) => [knob.name, end(knob)]));
  }
}

describe('files and links', () => {
  const changed = { ...defaults, seat_height: 431.5, back_slats: 4 };

  test('a design goes into a file and comes back', () => {
    const text = ok(core.writeDesign(changed, 'Two “quotes” & é'));
    assert.deepEqual(ok(core.readDesign(text)), { design: changed, name: 'Two “quotes” & é', notes: [] });
    for (const wrong of [undefined, 3, '', '{', '[]', text.slice(0, -9), text.replace('design/1', 'design/2')]) refused(core.readDesign(wrong));
    refused(core.writeDesign({ wings: 1 }, ''));
    refused(core.writeDesign(changed, 5));
  });

  test('a design goes into a link and comes back, and a link cut anywhere is refused', () => {
    const link = ok(core.writeLink(changed));
    assert.deepEqual(ok(core.readLink(link)).design, changed);
    assert.ok(link.length < 200, link);
    for (let end = 0; end < link.length; end++) refused(core.readLink(link.slice(0, end)));
    refused(core.readLink(null));
  });

  test('a shop goes in as text and its prices come out', () => {
    const demo = core.demoShop();
    assert.equal(demo.crestrail, 'shop/2');
    const { shop } = ok(core.readShop(JSON.stringify(demo)));
    assert.deepEqual(shop, demo);
    const [own, given] = [{}, { shop }].map((more) => ok(core.step({ design: defaults, view, want: ['report'], ...more })));
    assert.deepEqual(own.report, given.report);
    refused(core.readShop('{"crestrail":"shop/1"}'));
  });

  for (const kind of ['cutting_list_csv', 'bill_csv', 'report_json', 'picture_svg', 'parts_list_html']) {
    test(`${kind} is bytes of its own, with a name and a type`, () => {
      const told = [];
      const made = ok(core.file({ kind, design: defaults, name: 'My chair / 2', view }, (...news) => told.push(news)));
      assert.match(made.name, /^my-chair-2-[a-z-]+\.(csv|json|svg|html)$/);
      assert.match(made.type, /^(text\/csv|application\/json|image\/svg\+xml|text\/html)/);
      assert.ok(made.bytes instanceof Uint8Array && made.bytes.length > 200);
      assert.equal(made.bytes.buffer.byteLength, made.bytes.length, 'the buffer is the file’s own, so it may be handed over');
      new TextDecoder('utf-8', { fatal: true }).decode(made.bytes);
      for (const [done, total, words] of told) assert.ok(done >= 0 && done <= total && words);
      assert.ok(told.length >= 2 && told.at(-1)[0] === told.at(-1)[1]);
    });
  }

  test('the quote is written as a page and as a PDF, and the order is read back out of both', () => {
    const order = { crestrail: 'order/2', name: 'Hall', customer: 'Ada', lines: [{ name: 'Side chair', quantity: 2, knobs: defaults }] };
    const asked = { order, number: '2026-7', date: '2026-03-09', view };
    const fonts = ['regular', 'medium'].map((weight) => readFileSync(join(__dirname, `../../www/page/fonts/crestrail-sans-${weight}.ttf`)));
    const page = ok(core.quote(asked));
    assert.deepEqual(ok(core.readOrder(page)).order.lines, order.lines);
    for (const paper of ['a4', 'letter']) {
      const made = ok(core.quotePdf({ ...asked, paper }, ...fonts));
      assert.deepEqual([made.name, made.type, made.missing], ['quote-2026-7.pdf', 'application/pdf', '']);
      isPlain(made);
      const { text } = ok(core.readAttached(made.bytes));
      assert.deepEqual(ok(core.readOrder(text)).order, ok(core.readOrder(JSON.stringify(order))).order);
    }
    assert.equal(refused(core.quotePdf({ ...asked, paper: 'roll' }, ...fonts)).where, 'paper');
    assert.equal(refused(core.quotePdf({ ...asked, paper: 'a4', date: 'soon' }, ...fonts)).where, 'date');
    refused(core.quotePdf({ ...asked, paper: 'a4' }, new Uint8Array(), new Uint8Array()));
    refused(core.readAttached(new Uint8Array([1, 2, 3])));
    refused(core.readAttached(new TextEncoder().encode('%PDF-1.7 empty')));
  });

  test('the tables of an order come only where they are wanted', () => {
    const order = { crestrail: 'order/2', name: '', customer: '', lines: [{ name: '', quantity: 2, knobs: defaults }] };
    const [whole, bare] = [ok(core.order({ order })), ok(core.order({ order, want: [] }))];
    assert.deepEqual([whole.breaks.length, bare.breaks.length], [1, 0]);
    assert.deepEqual({ ...whole, breaks: [] }, bare);
  });

  test('the timber plan of an order has a drawing for each board, its sets, and files', () => {
    const order = { crestrail: 'order/1', name: '', customer: '', lines: [{ name: '', quantity: 3, knobs: defaults }] };
    const told = [];
    const { plan, boards } = ok(core.plan({ order, effort: 'quick', view: { scheme: 'dark' } }, (...news) => told.push(news)));
    assert.equal(plan.chairs, 3);
    assert.deepEqual(boards.map((drawn) => drawn.length), plan.classes.map((one) => one.boards.length));
    for (const svg of boards.flat()) assert.match(svg, /^<svg [^]*<\/svg>$/);
    assert.deepEqual(told.at(-1).slice(0, 2), [100, 100]);
    const sets = ok(core.sets({ design: defaults }, silent));
    assert.deepEqual(sets.map(({ chairs }) => chairs), [1, 2, 4, 6, 8, 12, 24]);
    for (const kind of ['plan_svg', 'plan_csv', 'plan_json']) {
      const made = ok(core.planFile({ kind, order, effort: 'quick', name: 'My chair' }, silent));
      assert.match(made.name, /^my-chair-timber-plan\.(svg|csv|json)$/);
      assert.ok(made.bytes.length > 200);
    }
    refused(core.plan({ order, effort: 'much' }, silent));
    refused(core.plan({ order: { ...order, lines: [{ ...order.lines[0], quantity: 0 }] } }, silent));
    refused(core.planFile({ kind: 'no such', order, effort: 'quick' }, silent));
    const { stock, ...bare } = core.demoShop();
    assert.ok(stock);
    assert.equal(refused(core.plan({ order, shop: bare }, silent)).where, 'shop.stock');
  });

  test('a listener that throws does not stop a file, and an unknown kind is refused', () => {
    const thrower = () => {
      throw new Error('from the listener');
    };
    ok(core.file({ kind: 'report_json', design: defaults, view }, thrower));
    refused(core.file({ kind: 'no such', design: defaults, view }, silent));
  });
});
