// The page without a pointer, without sight, without colours of its own and without motion.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { browse } from './harness.js';
import { places, stage, walk } from './states.js';

const desk = { width: 1280, height: 800 };

let browser;
let site;
before(async () => {
  [browser, site] = await Promise.all([browse(), stage()]);
});
after(async () => {
  await browser.close();
  await site.stop();
});

const place = (wanted) => places.find(({ name }) => name === wanted);
/** Brings a page into one of its states. */
const inState = (where, name, options, look) => walk(browser, site.address, place(where), { viewport: desk, ...options, only: (state) => state.name === name }, look);

describe('what is said aloud while a knob is dragged', () => {
  for (const where of ['Workshop', 'Showroom']) {
    test(`${where}: sizes, checks and price once, when it rests, and nothing else`, () =>
      inState(where, 'first visit', {}, async ({ page, words }) => {
        // What the first chair had to say is over.
        await page.waitForFunction(() => document.querySelector('#summary .unseen, #label .unseen').textContent !== '');
        await page.evaluate(() => {
          window.said = [];
          for (const region of document.querySelectorAll('[aria-live], [role="status"], [role="alert"]')) {
            new MutationObserver(() => window.said.push([region.id || region.parentElement.id || region.className, region.textContent])).observe(region, { childList: true, characterData: true, subtree: true });
          }
        });
        const slider = page.locator('[data-knob="seat_height"] input[type="range"]').first();
        // In the page itself: between moves that a driver sends a busy machine may rest as long as a hand does.
        await slider.evaluate(async (input) => {
          for (let step = 1; step <= 20; step += 1) {
            input.value = String(Number(input.value) + 1);
            input.dispatchEvent(new Event('input', { bubbles: true }));
            await new Promise((done) => setTimeout(done, 15));
          }
          input.dispatchEvent(new Event('change', { bubbles: true }));
        });
        const before = await page.locator('.cell-price dd').first().innerText();
        await page.locator('#summary[aria-busy="false"], #label[aria-busy="false"]').first().waitFor();
        await page.waitForFunction(() => window.said.length > 0);
        await page.waitForTimeout(1500);
        const told = await page.evaluate(() => window.said);
        const price = await page.locator('.cell-price dd').first().innerText();
        assert.deepEqual(told.map(([region]) => region), [where === 'Workshop' ? 'summary' : 'label'], `${before} ${JSON.stringify(told)}`);
        assert.ok(told[0][1].includes(price), told[0][1]);
        if (where === 'Workshop') assert.ok(told[0][1].includes(await page.locator('.cell-verdict dd').innerText()), `${told[0][1]} ${words.verdict}`);
      }));
  }
});

test('the picture says what it shows: name, kind, view and sizes', () =>
  inState('Workshop', 'first visit', {}, async ({ page }) => {
    const says = () => page.locator('#picture').getAttribute('aria-label');
    const [width, depth, height, seat] = await Promise.all(['width', 'depth', 'height', 'seat'].map((cell) => page.locator(`.cell-${cell} dd`).innerText()));
    for (const part of ['Side chair', width, depth, height, seat]) assert.ok((await says()).includes(part), `${part}: ${await says()}`);
    const before = await says();
    await page.locator('[data-look="front"]').click();
    await page.waitForFunction((was) => document.querySelector('#picture').getAttribute('aria-label') !== was, before);
  }));

test('Escape puts away a notice from wherever the focus is, the last one first', () =>
  inState('Workshop', 'notices', {}, async ({ page }) => {
    const notices = page.locator('#notices .notice');
    const count = await notices.count();
    assert.ok(count > 0);
    await page.locator('#knob-seat_height').focus();
    for (let left = count; left > 0; left -= 1) {
      assert.equal(await notices.count(), left);
      await page.keyboard.press('Escape');
    }
    assert.equal(await notices.count(), 0);
  }));

test('Tab goes through every control once, in the order in which they stand, and comes out again', () =>
  inState('Showroom', 'first visit', {}, async ({ page }) => {
    const wanted = await page.evaluate(() => {
      const all = [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex]')];
      const reached = all.filter((control) => control.tabIndex >= 0 && !control.disabled && control.checkVisibility({ visibilityProperty: true }));
      // Of radio buttons of one name only the one that is chosen.
      const shown = reached.filter((control) => control.type !== 'radio' || control.checked);
      shown.forEach((control, i) => (control.dataset.order = String(i)));
      document.activeElement?.blur();
      return { count: shown.length, jumps: all.filter(({ tabIndex }) => tabIndex > 0).length };
    });
    assert.equal(wanted.jumps, 0);
    const seen = [];
    for (let i = 0; i < wanted.count; i += 1) {
      await page.keyboard.press('Tab');
      seen.push(await page.evaluate(() => document.activeElement?.dataset.order ?? document.activeElement?.outerHTML.slice(0, 80)));
    }
    assert.deepEqual(seen, Array.from({ length: wanted.count }, (_, i) => String(i)));
  }));

describe('in the colours that the reader’s system forces', () => {
  for (const colorScheme of ['light', 'dark']) {
    test(`what is chosen stands out, rules and gauges are seen, and drawings are: ${colorScheme}`, () =>
      inState('Workshop', 'tab findings', { forcedColors: 'active', colorScheme }, async ({ page }) => {
        const found = await page.evaluate(() => {
          const style = (selector) => getComputedStyle(document.querySelector(selector));
          const differs = (chosen, other, trait) => style(chosen)[trait] !== style(other)[trait];
          return {
            button: differs('#tint-buttons [aria-pressed="true"]', '#tint-buttons [aria-pressed="false"]', 'backgroundColor'),
            choice: differs('.choice input:checked + span', '.choice input:not(:checked) + span', 'backgroundColor'),
            tab: differs('[role="tab"][aria-selected="true"]', '[role="tab"][aria-selected="false"]', 'borderBottomColor'),
            kind: style('.kind:has(:checked)').outlineStyle === 'solid',
            band: style('.ruler-band').borderBottomStyle === 'solid',
            gauge: style('.gauge-used').borderBottomStyle === 'solid',
            slider: style('.ruler-input').appearance === 'auto',
            drawing: document.querySelectorAll('#picture > svg path').length > 40,
          };
        });
        for (const [what, stands] of Object.entries(found)) assert.ok(stands, what);
      }));
  }
});

test('no verdict is told by colour alone: each has a word and a shape', () =>
  inState('Workshop', 'tab findings', {}, async ({ page }) => {
    await page.locator('#list-findings .verdict:not([data-verdict="close"], [data-verdict="fails"])').nth(3).waitFor();
    const marks = await page.evaluate(() => [...document.querySelectorAll('#list-findings .verdict')].map((mark) => [mark.dataset.verdict ?? 'sound', mark.textContent.trim(), getComputedStyle(mark, '::before').content]));
    assert.ok(marks.length > 5);
    const of = (place) => new Map(marks.map((mark) => [mark[0], mark[place]]));
    for (const place of [1, 2]) {
      assert.ok([...of(place).values()].every((told) => told && told !== 'none'));
      assert.equal(new Set(of(place).values()).size, of(place).size);
    }
  }));

test('where motion is not wanted nothing moves by itself', () =>
  inState('Workshop', 'first visit', { reducedMotion: 'reduce' }, async ({ page }) => {
    await page.locator('[data-look="apart"]').click();
    await page.waitForFunction(() => Number(document.querySelectorAll('#view-rulers input')[1].value) === 100);
    const moving = await page.evaluate(() => document.getAnimations().filter(({ effect }) => Number(effect?.getTiming().duration) > 10).length);
    assert.equal(moving, 0);
    const slow = await page.evaluate(() => [...document.querySelectorAll('*')].filter((element) => parseFloat(getComputedStyle(element).transitionDuration) > 0.01).map((element) => element.className));
    assert.deepEqual(slow, []);
    assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior), 'auto');
  }));
