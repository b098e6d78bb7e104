// The page in front of somebody: at a phone's and at a desk's width.
import { engine } from './engines.js';
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { findClash } from './clash.js';
import { Desk, atDesk } from './desk.js';
import { open, ready, sizes, together } from './harness.js';

/** A knob of the first group, which is open from the start. */
const KNOB = 'Seat height';

const here = together();

const at = (viewport, run) => atDesk(here, viewport, run);

/** Runs in the page: how far the page as a whole can be scrolled sideways, px. */
function sideways() {
  scrollTo(1e6, 0);
  const far = scrollX;
  scrollTo(0, 0);
  return far;
}

for (const [name, viewport] of Object.entries(sizes)) {
  describe(`at the width of a ${name}`, () => {
    test('it shows a chair, its lists and its price', () =>
      at(viewport, async (desk, page) => {
        const letters = await desk.drawing.locator('[data-letter]').evaluateAll((all) => all.map((e) => e.dataset.letter));
        const list = await desk.rows.count();
        assert.ok(list >= 8, `the cutting list has ${list} rows`);
        assert.ok(new Set(letters).size >= 8, `the picture shows the parts ${[...new Set(letters)]}`);
        assert.match(await desk.titleBlock.innerText(), /\d/);
        assert.equal(await page.evaluate(sideways), 0, 'the page can be scrolled sideways');
      }));

    test('the keyboard turns a knob', () =>
      at(viewport, async (desk, page) => {
        const before = await desk.shown();
        const from = Number(await desk.slider(KNOB).inputValue());
        await desk.slider(KNOB).focus();
        await desk.changing(() => page.keyboard.press('ArrowRight'));
        assert.ok(Number(await desk.slider(KNOB).inputValue()) > from);
        const now = await desk.shown();
        assert.notEqual(now.sizes, before.sizes);
        assert.notEqual(now.picture, before.picture);
        await desk.changing(() => page.keyboard.press('ArrowLeft'));
        assert.deepEqual(await desk.shown(), before, 'the way back leads to the same chair');
      }));

    test('the keyboard turns the picture and takes it apart', () =>
      at(viewport, async (desk, page) => {
        const seen = new Set([await desk.drawing.innerHTML()]);
        await desk.picture.focus();
        for (const key of ['ArrowLeft', '+', 'ArrowUp']) {
          const last = [...seen].at(-1);
          await page.keyboard.press(key);
          await page.waitForFunction((was) => document.querySelector('#picture > svg')?.innerHTML !== was, last);
          seen.add(await desk.drawing.innerHTML());
        }
        assert.equal(seen.size, 4);
        assert.match(await desk.picture.getAttribute('aria-label'), /apart by 10 %/);
      }));
  });
}

describe('bad input', () => {
  for (const typed of ['9999', '-1', 'tall', '']) {
    test(`“${typed}” for a size is refused beside it, and the chair stays`, () =>
      at(sizes.desk, async (desk) => {
        const before = await desk.shown();
        const value = await desk.slider(KNOB).inputValue();
        await desk.type(KNOB, typed);
        assert.equal(await desk.field(KNOB).getAttribute('aria-invalid'), 'true');
        assert.match(await desk.page.locator('.knob', { has: desk.field(KNOB) }).getByRole('alert').innerText(), /Seat height.*from.*to/);
        assert.equal(await desk.slider(KNOB).inputValue(), value);
        assert.deepEqual(await desk.shown(), before);
        await desk.changing(() => desk.type(KNOB, String(Number(value) + 10)));
        assert.equal(await desk.field(KNOB).getAttribute('aria-invalid'), 'false');
      }));
  }

  test('files that hold no design are refused with a reason, and the chair stays', () =>
    at(sizes.desk, async (desk) => {
      const { text } = await desk.saved(() => desk.menu('Save the design'));
      const good = JSON.parse(text);
      const bad = {
        'cut short': text.slice(0, -20),
        empty: '',
        'of another kind': '{"type":"FeatureCollection","features":[]}',
        'no object': '[1,2,3]',
        newer: text.replace('design/1', 'design/2'),
        'with an unknown knob': JSON.stringify({ ...good, knobs: { ...good.knobs, wings: 2 } }),
        'with a knob missing': JSON.stringify({ ...good, knobs: { ...good.knobs, seat_height: undefined } }),
        'with a size out of range': JSON.stringify({ ...good, knobs: { ...good.knobs, seat_height: 99999 } }),
        'with a text for a size': JSON.stringify({ ...good, knobs: { ...good.knobs, seat_height: '450' } }),
        'with nothing for a size': JSON.stringify({ ...good, knobs: { ...good.knobs, seat_height: null } }),
      };
      const before = await desk.shown();
      for (const [what, wrong] of Object.entries(bad)) {
        await desk.openFile(wrong, `${what}.json`);
        const notice = desk.notices.filter({ hasText: `Could not open “${what}.json”` });
        await notice.waitFor();
        const words = await notice.innerText();
        assert.ok(words.length > `Could not open “${what}.json”. The chair on screen has not changed.`.length + 10, `${what}: ${words}`);
        assert.deepEqual(await desk.shown(), before, what);
      }
    }));

  test('a link that was cut short is refused, and the chair stays', () =>
    at(sizes.desk, async (desk, page) => {
      await desk.changing(() => desk.type(KNOB, '470'));
      const link = await desk.link('seat_height=470');
      await desk.changing(() => desk.type(KNOB, '480'));
      await desk.link('seat_height=480');
      const before = await desk.shown();
      await page.evaluate((hash) => void (location.hash = hash), new URL(link).hash.slice(0, -3));
      await desk.notices.filter({ hasText: 'The link was not opened. This link is not whole' }).waitFor();
      assert.deepEqual(await desk.shown(), before);
    }));
});

describe('a chair that cannot be built', () => {
  let clash;
  before(async () => {
    clash = await findClash();
  });
  const meet = async (desk) => {
    const { text } = await desk.saved(() => desk.menu('Save the design'));
    await desk.openFile(JSON.stringify({ ...JSON.parse(text), knobs: clash.design }));
    await desk.banner.getByText('This chair cannot be made as set').waitFor();
  };

  test('it is said which knobs clash, and the last chair stays until the nearest size is taken', () =>
    at(sizes.desk, async (desk) => {
      const before = await desk.shown();
      await meet(desk);
      const words = await desk.banner.innerText();
      assert.match(words, /These clash:/);
      for (const label of clash.labels) assert.ok(words.includes(label), `${label} is not in ${words}`);
      assert.deepEqual(await desk.shown(), before);
      await desk.changing(() => desk.banner.getByRole('button', { name: /^Set / }).click());
      await desk.banner.waitFor({ state: 'hidden' });
    }));

  test('there is a way back to the last chair', () =>
    at(sizes.desk, async (desk) => {
      const before = await desk.shown();
      await meet(desk);
      await desk.banner.getByRole('button', { name: 'Back to the last chair that works' }).click();
      await desk.banner.waitFor({ state: 'hidden' });
      assert.deepEqual(await desk.shown(), before);
    }));
});

describe('keeping a design', () => {
  test('a link brings the same chair to somebody else', async () => {
    const first = await open(here.browser, here.server.address);
    const desk = new Desk(first.page);
    await desk.changing(() => desk.type(KNOB, '470'));
    const link = await desk.link('seat_height=470');
    const second = await open(here.browser, link);
    assert.equal(await new Desk(second.page).slider(KNOB).inputValue(), '470');
    assert.deepEqual(await new Desk(second.page).shown(), await desk.shown());
    assert.deepEqual([...first.faults, ...second.faults], []);
    await Promise.all([first.context.close(), second.context.close()]);
  });

  test('a saved file opens as the same chair', () =>
    at(sizes.desk, async (desk) => {
      await desk.changing(() => desk.type(KNOB, '475'));
      const before = await desk.shown();
      const { name, text } = await desk.saved(() => desk.menu('Save the design'));
      assert.match(name, /\.json$/);
      const file = JSON.parse(text);
      assert.equal(file.crestrail, 'design/1');
      assert.equal(file.knobs.seat_height, 475);
      await desk.changing(() => desk.menu('Start afresh'));
      await desk.changing(() => desk.openFile(text, name));
      assert.deepEqual(await desk.shown(), before);
    }));

  test('the browser keeps it until the next visit', () =>
    at(sizes.desk, async (desk, page) => {
      await desk.changing(() => desk.type(KNOB, '465'));
      await desk.link('seat_height=465');
      const before = await desk.shown();
      await page.goto('about:blank');
      await page.goto(here.server.address);
      await ready(page);
      assert.deepEqual(await desk.shown(), before);
    }));

  test('lists leave as files', () =>
    at(sizes.desk, async (desk) => {
      const save = (label) => desk.saved(() => desk.page.getByRole('button', { name: label }).click());
      const csv = await save('Cutting list, CSV');
      assert.match(csv.name, /\.csv$/);
      assert.ok(csv.text.split('\r\n').length > 8, csv.text);
      const report = await save('Whole report, JSON');
      assert.equal(JSON.parse(report.text).crestrail, 'report/1');
      assert.match((await save('Picture, SVG')).text, /^(<\?xml[^>]*>\s*)?<svg/);
      assert.match((await save('Parts list, HTML')).text, /^<!doctype html>/i);
    }));
});

describe('what the page may do', () => {
  test('the policy is in the answer and in the page', async () => {
    const answer = await fetch(here.server.address);
    const policy = answer.headers.get('content-security-policy');
    assert.match(policy, /^default-src 'none';/);
    assert.match(policy, /require-trusted-types-for 'script'/);
    assert.equal(answer.headers.get('x-content-type-options'), 'nosniff');
    assert.ok((await answer.text()).includes(`content="${policy}"`));
  });

  // Shows that the faults which the other tests look for would be seen.
  test('a script from elsewhere, markup from text and a request that leaves are stopped and seen', async () => {
    const { page, context, faults } = await open(here.browser, here.server.address);
    const outcome = await page.evaluate(async () => {
      const tried = {};
      try {
        document.body.innerHTML = '<b>text</b>';
        tried.markup = 'was taken';
      } catch (error) {
        tried.markup = error.name;
      }
      tried.request = await fetch('http://127.0.0.1:9/').then(
        () => 'went out',
        (error) => error.name,
      );
      const style = document.createElement('style');
      style.textContent = 'body { outline: 7px solid red }';
      document.body.append(style);
      tried.style = getComputedStyle(document.body).outlineWidth === '7px' ? 'was applied' : 'ignored';
      return tried;
    });
    assert.deepEqual(outcome, { markup: 'TypeError', request: 'TypeError', style: 'ignored' });
    // Over BiDi not each of them is told.
    if (engine === 'chromium') assert.ok(faults.length >= 3, faults.join('\n'));
    await context.close();
  });

  test('no path leads out of the packed files', async () => {
    for (const path of ['%2e%2e/Cargo.toml', '..%2fCargo.toml', 'icons/%2e%2e/%2e%2e/Cargo.toml']) {
      assert.equal((await fetch(here.server.address + path)).status, 404, path);
    }
    assert.equal((await fetch(here.server.address, { method: 'POST', body: 'x' })).status, 405);
  });
});
