// What a chair costs and when it is ready; quotes, orders and a workshop's own file.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readFile } from 'node:fs/promises';
import { Desk } from './desk.js';
import { open, ready, sizes, together } from './harness.js';

const here = together();

const demo = JSON.parse(await readFile(new URL('../../core/chair/data/shop.json', import.meta.url), 'utf8'));

async function prices(options) {
  const opened = await open(here.browser, here.server.address, options);
  await opened.page.getByRole('tab', { name: 'Price and work' }).click();
  return { ...opened, desk: new Desk(opened.page), panel: opened.page.getByRole('tabpanel', { name: 'Price and work' }) };
}

const cents = (text) => Number(text.replace(/[^\d−-]/g, '').replace('−', '-'));

test('the groups of the bill add up to the total, and work has hours and a lead time', async () => {
  const { page, context, faults, panel } = await prices();
  const sums = await panel.locator('.bill-groups summary .figures').allInnerTexts();
  const total = await panel.locator('.total').first().innerText();
  assert.ok(sums.length >= 7, String(sums));
  assert.equal(sums.map(cents).reduce((a, b) => a + b), cents(total));
  assert.match(total, /Total with delivery and tax/);
  const words = await panel.locator('.work-hours').innerText();
  assert.match(words, /Cutting joints[\s\S]*Hours at the bench\s+\d+\.\d\d h[\s\S]*Ready \d+ working days after the order/);
  assert.deepEqual(faults, []);
  await context.close();
  assert.ok(page.isClosed());
});

test('a line of the bill lights its parts in the picture', async () => {
  const { page, context, faults, panel } = await prices();
  await panel.getByText('Labour', { exact: true }).click();
  const lit = () => page.locator('#picture .lit').count();
  assert.equal(await lit(), 0);
  await panel.getByText('shaping curves', { exact: true }).click();
  await page.mouse.move(0, 0);
  const curved = await lit();
  assert.ok(curved > 0);
  await panel.getByText('planing', { exact: true }).click();
  await page.mouse.move(0, 0);
  assert.ok((await lit()) > curved);
  assert.deepEqual(faults, []);
  await context.close();
});

test('a quote is saved, holds nothing private, and opens the same chair again', async () => {
  const { page, context, faults, panel, desk } = await prices();
  await desk.changing(() => desk.type('Seat height', '431'));
  await panel.getByLabel('Chairs', { exact: true }).fill('6');
  await panel.getByLabel('For', { exact: true }).fill('Ada <b>');
  await panel.getByLabel('Number', { exact: true }).fill('2026-7');
  await panel.getByLabel('Date', { exact: true }).fill('2026-03-09');
  const { name, text } = await desk.saved(() => panel.getByRole('button', { name: 'Save the quote, HTML' }).click());
  assert.equal(name, 'quote-2026-7.html');
  for (const needed of ['Quote 2026-7', '9 March 2026', '8 April 2026', 'Ada &lt;b&gt;', '431 mm', '<svg']) assert.ok(text.includes(needed), needed);
  for (const secret of ['margin', 'overhead', 'contingency']) assert.ok(!text.split('<body>')[1].split('<script')[0].includes(secret), secret);
  await page.evaluate(() => localStorage.clear());
  await desk.menu('Start afresh');
  await page.waitForFunction(() => !location.hash.includes('431'));
  await desk.openFile(text, name);
  await desk.link('seat_height=431');
  assert.equal(await panel.getByLabel('Chairs', { exact: true }).inputValue(), '6');
  assert.deepEqual(faults, []);
  await context.close();
});

test('what the form lacks is said', async () => {
  const { context, panel } = await prices();
  await panel.getByLabel('Chairs', { exact: true }).fill('0');
  await panel.getByRole('button', { name: 'Save the quote, HTML' }).click();
  await panel.getByText(/^Chairs: /).waitFor();
  await context.close();
});

test('a workshop’s own file is put in force and kept; a bad one leaves it in force', async () => {
  const { page, context, faults, desk, panel } = await prices();
  const total = () => panel.locator('.total').first().innerText();
  const first = await total();
  const mine = { ...demo, name: 'Alder Lane', labour: { ...demo.labour, rate: 58 } };
  await desk.changing(() => desk.openFile(JSON.stringify(mine), 'shop.json'));
  await page.getByText('The prices are now those of Alder Lane.').waitFor();
  const dearer = await total();
  assert.ok(cents(dearer) > cents(first));
  const bad = { ...mine, labour: { ...mine.labour, rate: -58 } };
  await desk.openFile(JSON.stringify(bad), 'shop.json');
  await page.getByText(/labour\.rate\. The price is -58/).waitFor();
  assert.equal(await total(), dearer);
  await page.reload();
  await ready(page);
  await page.getByRole('tab', { name: 'Price and work' }).click();
  assert.equal(await total(), dearer);
  const old = structuredClone(demo);
  for (const part of ['labour', 'pricing', 'quote']) delete old[part];
  await desk.changing(() => desk.openFile(JSON.stringify({ ...old, crestrail: 'shop/1' }), 'shop.json'));
  await panel.getByText(/the bill holds no labour/).waitFor();
  assert.ok(await panel.locator('.work-hours').isHidden());
  assert.deepEqual(faults, []);
  await context.close();
});

test('on a phone the price by number and what moves the price can be read without scrolling sideways', async () => {
  const { page, context, faults, panel, desk } = await prices({ viewport: sizes.phone });
  await desk.kind('Stool').click();
  await panel.getByText('Price by number of chairs', { exact: true }).first().click();
  await panel.locator('.quote tbody tr').nth(11).waitFor();
  await panel.getByText('What moves the price', { exact: true }).click();
  await panel.locator('.moves li').nth(4).waitFor({ timeout: 60_000 });
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(wide <= 0, `${wide} px too wide`);
  assert.deepEqual(faults, []);
  await context.close();
});

test('what moved the price of a chair that has changed since is not shown', async () => {
  const { page, context, faults, panel, desk } = await prices();
  await desk.changing(() => desk.kind('Bench for three').click());
  await panel.getByText('What moves the price', { exact: true }).click();
  await panel.getByText(/^Trying sizes/).waitFor();
  await desk.changing(() => desk.type('Seat height', '470'));
  await panel.getByText('The design has changed since.').waitFor();
  // The worker that tried the sizes ends when it has answered.
  for (let left = 600; page.workers().length > 1 && left > 0; left -= 1) await page.waitForTimeout(100);
  assert.equal(page.workers().length, 1);
  await panel.getByText('The design has changed since.').waitFor();
  assert.equal(await panel.locator('.moves li').count(), 0);
  assert.deepEqual(faults, []);
  await context.close();
});

test('how to saw it: every board to scale, for as many chairs as asked; gone as soon as the chair changes', async () => {
  const { page, context, faults, panel, desk } = await prices({ viewport: sizes.phone });
  await panel.getByText('How to saw it', { exact: true }).click();
  const boards = panel.locator('.board-region svg');
  await boards.first().waitFor({ timeout: 60_000 });
  const rows = panel.getByRole('table', { name: 'What a set takes' }).locator('tbody tr');
  await rows.nth(6).waitFor({ timeout: 120_000 });
  const one = await boards.count();
  await panel.getByLabel('Chairs to saw for').fill('0');
  await panel.getByRole('button', { name: 'Work it out' }).click();
  await panel.getByText(/^Chairs to saw for: /).waitFor();
  assert.equal(await boards.count(), one, 'a wrong number takes nothing away');
  await panel.getByLabel('Chairs to saw for').fill('8');
  await panel.getByRole('button', { name: 'Work it out' }).click();
  await panel.getByText(/^For 8 chairs: boards for /).waitFor({ timeout: 60_000 });
  const letters = await panel.locator('.board-region [data-letter]').evaluateAll((groups) => [...new Set(groups.map((group) => group.getAttribute('data-letter')))]);
  assert.ok(letters.length > 6 && letters.includes('B'), letters.join(' '));
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(wide <= 0, `${wide} px too wide`);
  await desk.changing(() => desk.type('Seat height', '470'));
  await panel.getByText('The design or the workshop has changed since; the old plan is gone.').waitFor();
  assert.equal(await boards.count(), 0);
  // One that ended well may rest for the next job.
  for (let left = 100; page.workers().length > 2 && left > 0; left -= 1) await page.waitForTimeout(100);
  assert.ok(page.workers().length <= 2, 'the worker of the old plan has ended');
  assert.deepEqual(faults, []);
  await context.close();
});
