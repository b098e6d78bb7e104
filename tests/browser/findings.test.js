// Checks that are sound are counted while nobody looks at them, and told to whoever opens them.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Desk } from './desk.js';
import { open, together } from './harness.js';

const here = together();

test('checks that are sound are told when they are opened, and follow a knob from then on', async () => {
  const { page, context, faults } = await open(here.browser, here.server.address);
  const desk = new Desk(page);
  await page.getByRole('tab', { name: 'Checks and cautions' }).click();
  const box = page.locator('.findings-sound');
  const told = box.locator('.finding');
  const counted = async () => Number(/\d+/.exec(await box.locator('summary').innerText())[0]);
  const allTold = async () => {
    const count = await counted();
    await page.waitForFunction((wanted) => document.querySelectorAll('.findings-sound .finding').length === wanted, count);
    assert.deepEqual(new Set(await told.evaluateAll((rows) => rows.map((row) => row.dataset.verdict))), new Set(['sound']));
    return count;
  };
  assert.ok((await counted()) > 10);
  assert.equal(await told.count(), 0);
  await box.locator('summary').click();
  const before = await allTold();

  await desk.slider('Seat height').focus();
  await desk.changing(() => page.keyboard.press('ArrowRight'));
  await allTold();
  await box.locator('summary').click();
  await desk.slider('Seat height').focus();
  await desk.changing(() => page.keyboard.press('ArrowLeft'));
  assert.equal(await counted(), before);
  assert.equal(await told.count(), 0);
  assert.deepEqual(faults, []);
  await context.close();
});
