// The kinds of chair: the chooser, what it opens, and which knobs a kind shows.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { Desk, atDesk } from './desk.js';
import { open, ready, sizes, together } from './harness.js';

/** Every kind as the page names it, with the name that links and files carry. */
const KINDS = {
  'Side chair': 'side_chair',
  Armchair: 'armchair',
  Stool: 'stool',
  'Counter chair': 'counter_chair',
  'Bar chair': 'bar_chair',
  'Bench for two': 'bench_two',
  'Bench for three': 'bench_three',
  'Child\'s chair': 'child_chair',
};

const here = together();

const at = (viewport, run) => atDesk(here, viewport, run);

/** Labels of the knobs that are on screen in the group, which is opened. */
async function knobsOf(page, group) {
  const box = page.locator('details.group', { has: page.locator('.group-name', { hasText: new RegExp(`^${group}$`) }) });
  if (!(await box.isVisible())) return undefined;
  await box.evaluate((details) => (details.open = true));
  return box.locator('.knob:visible .knob-label').allInnerTexts();
}

/** Opens a group and chooses from the list of one of its knobs. */
async function pick(desk, group, label, value) {
  await knobsOf(desk.page, group);
  await desk.page.getByRole('combobox', { name: label, exact: true }).selectOption(value);
}

for (const [name, viewport] of Object.entries(sizes)) {
  describe(`the chooser at the width of a ${name}`, () => {
    test('every kind has a drawing of its own', () =>
      at(viewport, async (desk, page) => {
        await page.locator('#kinds').scrollIntoViewIfNeeded();
        await page.waitForFunction((count) => document.querySelectorAll('.kind-picture > svg').length === count, Object.keys(KINDS).length);
        const drawings = await page.locator('.kind').evaluateAll((tiles) =>
          tiles.map((tile) => {
            const [svg, box] = [tile.querySelector('svg'), tile.getBoundingClientRect()];
            return { paths: svg.querySelectorAll('path').length, text: svg.innerHTML, inside: svg.getBoundingClientRect().right <= box.right };
          }),
        );
        assert.equal(new Set(drawings.map(({ text }) => text)).size, drawings.length);
        for (const { paths, inside } of drawings) assert.ok(paths > 40 && inside, `${paths} lines, inside: ${inside}`);
      }));

    test('every kind opens as a chair with its lists and its price, and stands in the link', () =>
      at(viewport, async (desk, page) => {
        const seen = new Set([(await desk.shown()).sizes]);
        for (const [label, family] of Object.entries(KINDS).slice(1)) {
          await desk.changing(() => desk.kind(label).check());
          await desk.link(`family=${family}`);
          const { sizes: shown } = await desk.shown();
          assert.ok(await desk.banner.isHidden(), `${label}: ${await desk.banner.innerText()}`);
          assert.match(shown, /[€$£]|EUR/, label);
          assert.ok((await desk.rows.count()) >= 5, label);
          assert.match(await desk.picture.getAttribute('aria-label'), new RegExp(`\\(${label}\\)`));
          const letters = await desk.drawing.locator('[data-letter]').evaluateAll((all) => new Set(all.map((e) => e.dataset.letter)).size);
          assert.ok(letters >= 5, `${label} shows ${letters} parts`);
          assert.equal(await page.evaluate(() => (scrollTo(1e6, scrollY), scrollX)), 0, `${label} scrolls sideways`);
          seen.add(shown);
        }
        assert.equal(seen.size, Object.keys(KINDS).length, 'two kinds look alike');
      }));

    test('it can be used without a pointer and without sight', () =>
      at(viewport, async (desk, page) => {
        const group = page.getByRole('radiogroup', { name: 'Kind of chair' });
        const radios = group.getByRole('radio');
        assert.equal(await radios.count(), Object.keys(KINDS).length);
        for (const label of Object.keys(KINDS)) assert.equal(await desk.kind(label).count(), 1, label);
        assert.ok(await desk.kind('Side chair').isChecked());
        for (const box of await radios.evaluateAll((all) => all.map((e) => e.getBoundingClientRect().toJSON()))) {
          assert.ok(box.width >= 44 && box.height >= 44, `a target is ${box.width} × ${box.height} px`);
        }
        await desk.kind('Side chair').focus();
        await desk.changing(() => page.keyboard.press('ArrowRight'));
        assert.ok(await desk.kind('Armchair').isChecked());
        await desk.changing(() => page.keyboard.press('ArrowDown'));
        assert.ok(await desk.kind('Stool').isChecked());
        assert.ok(await desk.kind('Stool').evaluate((input) => input === document.activeElement));
        await desk.changing(() => page.keyboard.press('ArrowLeft'));
        assert.ok(await desk.kind('Armchair').isChecked());
        assert.deepEqual(await page.evaluate(flaws), []);
      }));
  });
}

/** Runs in the page: what a screen reader would stumble over. */
function flaws() {
  const found = [];
  const ids = [...document.querySelectorAll('[id]')].map(({ id }) => id);
  for (const id of new Set(ids)) if (ids.filter((other) => other === id).length > 1) found.push(`twice: #${id}`);
  for (const attribute of ['aria-labelledby', 'aria-describedby', 'aria-controls', 'for']) {
    for (const element of document.querySelectorAll(`[${attribute}]`)) {
      for (const id of element.getAttribute(attribute).split(' ')) if (!ids.includes(id)) found.push(`${attribute} leads nowhere: ${id}`);
    }
  }
  for (const control of document.querySelectorAll(':is(button, input, select):not([hidden])')) {
    const named = control.labels?.length || control.textContent.trim() || control.ariaLabel || control.getAttribute('aria-labelledby');
    if (!named) found.push(`no name: ${control.outerHTML.slice(0, 80)}`);
  }
  return found;
}

describe('knobs of a kind', () => {
  test('a stool has neither back nor arms, and nothing to choose where there is one possibility', () =>
    at(sizes.desk, async (desk, page) => {
      assert.ok((await knobsOf(page, 'Back')).includes('Slats in the back'));
      assert.equal(await knobsOf(page, 'Arms'), undefined, 'a side chair has no arms');
      await desk.changing(() => desk.kind('Stool').check());
      assert.equal(await knobsOf(page, 'Back'), undefined);
      assert.equal(await knobsOf(page, 'Arms'), undefined);
      assert.equal(await knobsOf(page, 'Kind'), undefined);
      await desk.changing(() => desk.kind('Bar chair').check());
      const stretchers = await knobsOf(page, 'Stretchers');
      assert.ok(!stretchers.includes('Stretchers'), 'a bar chair always has stretchers all round');
      assert.ok(stretchers.includes('Height of the front stretcher'));
    }));

  test('limits are those of the kind', () =>
    at(sizes.desk, async (desk) => {
      const range = async () => [Number(await desk.slider('Seat height').getAttribute('min')), Number(await desk.slider('Seat height').getAttribute('max'))];
      const [low, high] = await range();
      assert.ok(low < 450 && high < 600, `${low} to ${high}`);
      await desk.changing(() => desk.kind('Bar chair').check());
      assert.ok((await range())[0] > high);
      await desk.type('Seat height', String(high));
      assert.equal(await desk.field('Seat height').getAttribute('aria-invalid'), 'true');
    }));

  test('what depends on a choice comes and goes with it', () =>
    at(sizes.desk, async (desk, page) => {
      await desk.changing(() => desk.kind('Counter chair').check());
      assert.ok((await knobsOf(page, 'Back')).length > 5);
      await desk.changing(() => pick(desk, 'Back', 'Back', 'open'));
      assert.deepEqual(await knobsOf(page, 'Back'), ['Back']);
      await desk.changing(() => pick(desk, 'Back', 'Back', 'laths'));
      assert.ok((await knobsOf(page, 'Back')).includes('Laths'));
      const curve = async () => (await knobsOf(page, 'Back')).includes('Rise of the crest rail');
      assert.equal(await curve(), false);
      await desk.page.getByRole('radio', { name: 'Sawn to a curve', exact: true }).check();
      await page.waitForFunction(() => !document.querySelector('[data-knob="crest_rise"]').hidden);
      assert.equal(await curve(), true);
    }));
});

describe('going from kind to kind', () => {
  test('changed sizes are kept where they fit, the others are named, and there is a way back', () =>
    at(sizes.desk, async (desk, page) => {
      await desk.changing(() => desk.type('Seat height', '470'));
      await knobsOf(page, 'Seat rails');
      await desk.changing(() => desk.type('Thickness of the seat rails', '26'));
      await desk.link('rail_thickness=26');
      const before = await desk.shown();
      await desk.changing(() => desk.kind('Bar chair').check());
      const notice = desk.notices.filter({ hasText: 'Now: bar chair' });
      const words = await notice.innerText();
      assert.match(words, /Seat height \(470 mm, now 760 mm\)/);
      assert.ok(!words.includes('Thickness'), words);
      assert.equal(await desk.field('Thickness of the seat rails').inputValue(), '26');
      assert.equal(await desk.field('Seat height').inputValue(), '760');
      await desk.changing(() => notice.getByRole('button', { name: 'Undo' }).click());
      assert.ok(await desk.kind('Side chair').isChecked());
      assert.equal(await desk.field('Seat height').inputValue(), '470');
      assert.deepEqual(await desk.shown(), before);
    }));

  test('starting afresh stays with the kind', () =>
    at(sizes.desk, async (desk) => {
      await desk.changing(() => desk.kind('Stool').check());
      const first = await desk.shown();
      await desk.changing(() => desk.type('Seat height', '480'));
      await desk.changing(() => desk.menu('Start afresh'));
      assert.deepEqual(await desk.shown(), first);
    }));

  test('many keys in a row end at the last kind', () =>
    at(sizes.desk, async (desk, page) => {
      await desk.kind('Side chair').focus();
      for (let i = 0; i < 4; i++) await page.keyboard.press('ArrowRight');
      await desk.link('family=bar_chair');
      assert.ok(await desk.kind('Bar chair').isChecked());
      assert.equal(await desk.field('Seat height').inputValue(), '760');
    }));
});

describe('a kind is kept', () => {
  for (const [label, family] of Object.entries(KINDS)) {
    test(`in a link: ${label}`, async () => {
      const first = await open(here.browser, here.server.address);
      const desk = new Desk(first.page);
      if (family !== 'side_chair') await desk.changing(() => desk.kind(label).check());
      const field = desk.field('Seat height');
      const height = Number(await field.inputValue()) + 3;
      await desk.changing(() => desk.type('Seat height', String(height)));
      const second = await open(here.browser, await desk.link(`seat_height=${height}`));
      const other = new Desk(second.page);
      assert.ok(await other.kind(label).isChecked());
      assert.deepEqual(await other.shown(), await desk.shown());
      assert.deepEqual([...first.faults, ...second.faults], []);
      await Promise.all([first.context.close(), second.context.close()]);
    });
  }

  test('in a file, and in the browser until the next visit', () =>
    at(sizes.desk, async (desk, page) => {
      await desk.changing(() => desk.kind('Bench for two').check());
      await desk.link('family=bench_two');
      const bench = await desk.shown();
      const { name, text } = await desk.saved(() => desk.menu('Save the design'));
      assert.equal(JSON.parse(text).knobs.family, 'bench_two');
      await page.goto('about:blank');
      await page.goto(here.server.address);
      await ready(page);
      assert.deepEqual(await desk.shown(), bench);
      await desk.changing(() => desk.kind('Stool').check());
      await desk.changing(() => desk.openFile(text, name));
      assert.ok(await desk.kind('Bench for two').isChecked());
      assert.deepEqual(await desk.shown(), bench);
    }));
});
