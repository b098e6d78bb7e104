// What comes onto paper when somebody prints a page: no controls, and ink, whatever the screen shows.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { open, together } from './harness.js';

const both = together();

/** Controls that would be printed; of a knob its value stays, the letters of parts are words. */
function printed() {
  const stays = '.letter, .knob-field, .choice :checked, .knob select';
  const controls = [...document.querySelectorAll('button, input, select, textarea, a[href], [role=slider], .ruler, .dimensions *, progress')];
  return controls.filter((element) => !element.matches(stays) && element.checkVisibility({ visibilityProperty: true }) && element.getBoundingClientRect().height > 0).map((element) => element.outerHTML.slice(0, 120));
}

/** How dark words and how light the ground are, 0 to 255. */
function ink() {
  const levels = (/** @type {string} */ colour) => Math.max(...(colour.match(/[\d.]+/g) ?? []).slice(0, 3).map(Number));
  const ground = getComputedStyle(document.documentElement).getPropertyValue('--paper').trim();
  return { words: levels(getComputedStyle(document.body).color), ground };
}

for (const path of ['', 'showroom.html']) {
  test(`paper shows no controls, and ink in dark colours too: ${path || 'the Workshop'}`, async () => {
    const { page, context } = await open(both.browser, both.server.address + path, { colorScheme: 'dark' });
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    assert.deepEqual(await page.evaluate(printed), []);
    const { words, ground } = await page.evaluate(ink);
    assert.ok(words < 64, `words as light as ${words}`);
    assert.equal(ground, '#ffffff');
    await context.close();
  });
}

test('what a customer prints is one sheet on A4 and on Letter, with each choice in words', async () => {
  const { page, context } = await open(both.browser, `${both.server.address}showroom.html`);
  for (const format of ['A4', 'Letter']) {
    const file = (await page.pdf({ format, preferCSSPageSize: false })).toString('latin1');
    assert.equal(file.match(/\/Type\s*\/Page\b/g)?.length, 1, format);
  }
  await page.emulateMedia({ media: 'print' });
  const words = await page.locator('#knobs').innerText();
  assert.match(words, /Level slats/);
  assert.doesNotMatch(words, /Upright laths/);
  await context.close();
});
