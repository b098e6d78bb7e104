// The whole order of work: its steps with their pictures, and what is printed of it.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { open, sizes, together } from './harness.js';
import { savedPdf } from './pdf.js';

const here = together();

async function atWork(viewport) {
  const opened = await open(here.browser, here.server.address, { viewport });
  const { page } = opened;
  await page.getByRole('tab', { name: 'How it goes together' }).click();
  await page.getByText('The whole order of work').click();
  const steps = page.getByRole('list', { name: 'The whole order of work' }).locator('> li');
  await page.locator('.work-steps[aria-busy="false"]').waitFor();
  return { ...opened, steps, panel: page.getByRole('tabpanel', { name: 'How it goes together' }) };
}

const titlesOf = (steps) => steps.getByRole('heading').evaluateAll((all) => all.map((head) => head.firstChild?.textContent?.trim() ?? ''));

for (const [name, viewport] of Object.entries(sizes)) {
  test(`at the width of a ${name} the steps stand in order, with pictures, waits and cautions`, async () => {
    const { page, context, faults, steps } = await atWork(viewport);
    const titles = await titlesOf(steps);
    assert.ok(titles.length >= 6, `${titles}`);
    const at = (/** @type {RegExp} */ what) => titles.findIndex((title) => what.test(title));
    assert.ok(at(/timber/i) === 0, `the timber comes first: ${titles}`);
    assert.ok(at(/glu/i) < at(/finish|coat|oil/i), `glue comes before finish: ${titles}`);
    const pictures = steps.locator('.work-picture > svg');
    assert.ok((await pictures.count()) >= 2);
    assert.ok(await pictures.evaluateAll((all) => all.every((svg) => svg.querySelectorAll('path').length > 3 && svg.getBoundingClientRect().width > 200)), 'a picture is empty or too small');
    const words = await steps.allInnerTexts();
    assert.ok(words.some((step) => /Wait\s+\d+ h before the next step/.test(step)), 'no step waits for the glue');
    assert.ok(words.filter((step) => /Caution\s+\S.*\(.+\)/s.test(step)).length >= 2, 'cautions name their source');
    assert.ok((await steps.locator('.work-minutes').allInnerTexts()).filter((time) => /^\d+ (min|h( \d+ min)?)$/.test(time)).length >= 6, 'steps tell how long they take');
    assert.equal(await page.evaluate(() => (scrollTo(1e6, scrollY), scrollX)), 0, 'the page can be scrolled sideways');
    assert.deepEqual(faults, []);
    await context.close();
  });
}

test('pages and card are saved with the same steps in the same order', async () => {
  const { page, context, faults, steps, panel } = await atWork(sizes.phone);
  const titles = await titlesOf(steps);
  for (const what of ['Order of work, PDF', 'Card for the bench, PDF']) {
    const { name, words } = await savedPdf(page, () => panel.getByRole('button', { name: what }).click());
    await panel.getByText(`Saved ${name}.`).waitFor();
    const flat = words.replace(/\s+/g, ' ');
    const places = titles.map((title) => flat.indexOf(title));
    assert.ok(places.every((place) => place >= 0), `${what} misses ${titles.filter((_, i) => (places[i] ?? -1) < 0)}`);
  }
  assert.deepEqual(faults, []);
  await context.close();
});

test('another chair has another order of work', async () => {
  const { page, context, faults, steps } = await atWork(sizes.desk);
  const before = await steps.allInnerTexts();
  assert.ok(before.some((step) => /back slat/.test(step)));
  await page.getByRole('radio', { name: 'Stool', exact: true }).click();
  // A stool has no back: nothing of it is made or put together.
  await page.waitForFunction(() => {
    const list = document.querySelector('.work-steps:not(.stale)');
    return list instanceof HTMLElement && !/back slat/.test(list.innerText);
  });
  const now = await steps.allInnerTexts();
  assert.ok(now.length >= 6);
  assert.deepEqual(faults, []);
  await context.close();
});
