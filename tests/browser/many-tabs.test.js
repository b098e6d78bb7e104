// An order in two tabs of one browser, and a tab that dies.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Desk } from './desk.js';
import { open, ready, together } from './harness.js';

const here = together();

async function twoTabs() {
  const { page, context, faults } = await open(here.browser, here.server.address);
  const other = await context.newPage();
  await other.goto(here.server.address);
  await ready(other);
  for (const tab of [page, other]) await tab.getByRole('tab', { name: 'Price and work' }).click();
  const done = async () => {
    assert.deepEqual(faults, []);
    await context.close();
  };
  return { page, other, done };
}

const put = (page) => page.getByRole('button', { name: 'Put this chair into the order' }).click();
const lines = (page) => page.locator('.order-line');
const count = (page, wanted) => page.waitForFunction((n) => document.querySelectorAll('.order:not([hidden]) .order-line').length === n, wanted);
const counts = (page) => page.locator('.order-line input').evaluateAll((all) => all.map(({ value }) => Number(value)));
const note = (page, text) => page.locator('#notices .notice').filter({ hasText: text });

test('what one tab puts into the order the other shows and says', async () => {
  const { page, other, done } = await twoTabs();
  await put(page);
  await count(other, 1);
  await note(other, 'The order was changed in another tab.').waitFor();
  await new Desk(other).changing(() => new Desk(other).kind('Stool').click());
  await put(other);
  await count(page, 2);
  assert.deepEqual(await lines(page).locator('.order-name').allInnerTexts(), ['Side chair', 'Stool']);
  // Taken out in one, and brought back over what the other did meanwhile: that is told, and can be taken back.
  await page.getByRole('button', { name: 'Remove: Stool, line 2' }).click();
  await count(other, 1);
  await other.getByLabel('How many of Side chair').fill('7');
  await other.getByLabel('How many of Side chair').press('Tab');
  await page.waitForFunction(() => document.querySelector('.order-line input').value === '7');
  await done();
});

test('an undo that would write over another tab says so, and has a way back', async () => {
  const { page, other, done } = await twoTabs();
  await put(page);
  await count(other, 1);
  // The other tab hears nothing of it, as where both change it at once.
  await page.evaluate(() => addEventListener('storage', (event) => event.stopImmediatePropagation(), { capture: true }));
  await page.getByRole('button', { name: 'Empty the order' }).click();
  await count(other, 0);
  await put(other);
  await count(other, 1);
  await put(other);
  await count(other, 2);
  await note(page, 'The order is empty.').or(note(page, 'The order was changed')).first().waitFor();
  const undo = note(page, 'The order is empty.').getByRole('button', { name: 'Undo' });
  if (await undo.count()) {
    await undo.click();
    await count(page, 1);
    await note(page, 'Another tab had changed the order meanwhile.').getByRole('button', { name: 'Undo' }).click();
  }
  await count(page, 2);
  await done();
});

test('a change goes into the order as it is kept, not as it was seen', async () => {
  const { page, other, done } = await twoTabs();
  await put(page);
  await count(other, 1);
  // As where another tab writes in the very moment: this one has not been told.
  const write = (change) =>
    page.evaluate((text) => {
      const order = JSON.parse(localStorage.getItem('crestrail/order'));
      localStorage.setItem('crestrail/order', JSON.stringify(new Function('order', text)(order)));
    }, change);
  await write('return { ...order, lines: [{ ...order.lines[0], name: "Theirs", quantity: 3 }, ...order.lines] }');
  await page.getByLabel('How many of Side chair').fill('5');
  await page.getByLabel('How many of Side chair').press('Tab');
  await count(page, 2);
  assert.deepEqual(await counts(page), [3, 5]);
  // The line that is meant is no more: nothing is changed, and it is said.
  await write('return { ...order, lines: order.lines.slice(0, 1) }');
  await page.getByRole('button', { name: 'Remove: Side chair, line 2' }).click();
  await note(page, 'Nothing was changed').waitFor();
  assert.deepEqual(await counts(page), [3]);
  await done();
});

test('a tab that dies in the moment of a change leaves it to the next one', async () => {
  const { page, context, faults } = await open(here.browser, here.server.address);
  const desk = new Desk(page);
  await desk.changing(() => desk.type('Seat height', '437'));
  const session = await context.newCDPSession(page);
  const dead = new Promise((settle) => page.once('crash', settle));
  session.send('Page.crash').catch(() => {});
  await dead;
  const next = await context.newPage();
  await next.goto(here.server.address);
  await ready(next);
  assert.equal(await new Desk(next).field('Seat height').inputValue(), '437');
  assert.deepEqual(faults, []);
  await context.close();
});
