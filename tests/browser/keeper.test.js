// What is kept of a design when the page is left in haste.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Desk } from './desk.js';
import { open, ready, together } from './harness.js';

/** A knob of the first group, which is open from the start. */
const KNOB = 'Seat height';

const here = together();

// The page is left within the very task in which the chair is built, long before it would be written at rest.
test('a page that is left in the moment of a change comes back with it', async () => {
  const { page, context, faults } = await open(here.browser, here.server.address);
  const desk = new Desk(page);
  await desk.changing(() => desk.type(KNOB, '451'));
  await desk.link('seat_height=451');
  await page.evaluate(() => {
    const seen = new MutationObserver(() => location.reload());
    seen.observe(/** @type {Element} */ (document.querySelector('#summary dl')), { childList: true, characterData: true, subtree: true });
  });
  await Promise.all([page.waitForEvent('load'), desk.type(KNOB, '433')]);
  await ready(page);
  assert.equal(await desk.field(KNOB).inputValue(), '433');
  assert.equal(await desk.notices.count(), 0, 'it is not taken for a chair that came with a link');
  assert.deepEqual(faults, []);
  await context.close();
});

test('a link that is opened after that is a link again', async () => {
  const { page, context, faults } = await open(here.browser, here.server.address);
  const desk = new Desk(page);
  await desk.changing(() => desk.type(KNOB, '451'));
  const link = await desk.link('seat_height=451');
  await desk.changing(() => desk.type(KNOB, '433'));
  await desk.link('seat_height=433');
  await page.goto('about:blank');
  await page.goto(link);
  await ready(page);
  assert.equal(await desk.field(KNOB).inputValue(), '451');
  await desk.notices.filter({ hasText: 'Your own last design is kept.' }).waitFor();
  assert.deepEqual(faults, []);
  await context.close();
});
