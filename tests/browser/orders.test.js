// Orders of several designs, their quotes as PDF, and the timber plan of a whole order.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { promisify } from 'node:util';
import { Desk } from './desk.js';
import { savedFile } from './engines.js';
import { open, ready, sizes, together } from './harness.js';

const run = promisify(execFile);
const here = together();
const cents = (text) => Number(text.replace(/[^\d−-]/g, '').replace('−', '-'));

async function atPrices(options) {
  const opened = await open(here.browser, here.server.address, options);
  const { page } = opened;
  await page.getByRole('tab', { name: 'Price and work' }).click();
  const panel = page.getByRole('tabpanel', { name: 'Price and work' });
  const lines = panel.getByRole('list', { name: 'The order' }).getByRole('listitem');
  return { ...opened, desk: new Desk(page), panel, lines };
}

/** Six side chairs and two armchairs, priced. */
async function dining(at) {
  const { desk, panel, lines } = at;
  const put = panel.getByRole('button', { name: 'Put this chair into the order' });
  await panel.getByLabel('Chairs', { exact: true }).fill('6');
  await put.click();
  await lines.nth(0).waitFor();
  await desk.changing(() => desk.kind('Armchair').click());
  await panel.getByLabel('Chairs', { exact: true }).fill('2');
  await put.click();
  await lines.nth(1).waitFor();
  await priced(at);
}

/** Waits until the prices shown are those of the order. */
async function priced({ page, panel }) {
  await panel.locator('.order:not(.stale) .order-total').first().waitFor();
  await page.waitForFunction(() => [...document.querySelectorAll('.order:not(.stale) .order-amount')].every((amount) => amount.textContent?.trim()));
}

const amounts = async ({ lines }) => (await lines.locator('.order-amount').allInnerTexts()).map(cents);
const total = async ({ panel }) => cents(await panel.locator('.order-sums dd.order-total').innerText());

/** Drops a file on the page. */
async function drop(page, name, type, bytes) {
  const carried = await page.evaluateHandle(
    ({ name, type, bytes }) => {
      const data = new DataTransfer();
      data.items.add(new File([Uint8Array.from(bytes)], name, { type }));
      return data;
    },
    { name, type, bytes: [...bytes] },
  );
  await page.dispatchEvent('main', 'drop', { dataTransfer: carried });
}

async function savedBytes(page, act) {
  const [download] = await Promise.all([savedFile(page), act()]);
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
}

test('designs are put into an order, counted, opened and taken out, and it adds up', async () => {
  const at = await atPrices();
  const { page, context, faults, desk, panel, lines } = at;
  await panel.getByText('The quote is for 1 of the chair shown.').waitFor();
  await dining(at);
  await panel.getByText('The quote is for the order: 8 chairs of 2 designs.').waitFor();
  assert.deepEqual(await lines.locator('.order-name').allInnerTexts(), ['Side chair', 'Armchair']);
  const sums = (await panel.locator('.order-sums dd:not(.order-total)').allInnerTexts()).slice(0, -1).map(cents);
  const before = await amounts(at);
  assert.equal([...before, ...sums].reduce((a, b) => a + b), await total(at));
  // More of them cost more, but not in proportion: set-up is shared.
  await page.getByLabel('How many of Armchair').fill('4');
  await page.getByLabel('How many of Armchair').press('Tab');
  await page.waitForFunction((was) => !document.querySelector('.order.stale') && document.querySelectorAll('.order-amount')[1].textContent !== was, await lines.locator('.order-amount').nth(1).innerText());
  const after = await amounts(at);
  assert.ok(after[1] > before[1] && after[1] < 2 * before[1], `${before} ${after}`);
  // A chair of the order is opened, changed, and put back in.
  await desk.changing(() => page.getByRole('button', { name: 'Open: Side chair, line 1' }).click());
  await lines.nth(0).getByText('shown above', { exact: true }).waitFor();
  await desk.changing(() => desk.type('Seat height', '431'));
  await lines.nth(0).getByText('shown above, changed since').waitFor();
  await page.getByRole('button', { name: 'Put the changes in: Side chair, line 1' }).click();
  await lines.nth(0).getByText('shown above', { exact: true }).waitFor();
  const { name, text } = await desk.saved(() => panel.getByRole('button', { name: 'Save the order' }).click());
  const saved = JSON.parse(text);
  assert.equal(name, 'chair.order.json');
  assert.deepEqual(saved.lines.map(({ quantity, knobs }) => [quantity, knobs.family, knobs.seat_height]), [[6, 'side_chair', 431], [4, 'armchair', saved.lines[1].knobs.seat_height]]);
  // Taken out, and back.
  await page.getByRole('button', { name: 'Remove: Side chair, line 1' }).click();
  await page.waitForFunction(() => document.querySelectorAll('.order-line').length === 1);
  await desk.notices.getByRole('button', { name: 'Undo' }).last().click();
  await page.waitForFunction(() => document.querySelectorAll('.order-line').length === 2);
  assert.deepEqual(faults, []);
  await context.close();
});

test('the order is kept in the browser, and a wrong number leaves it as it was', async () => {
  const at = await atPrices();
  const { page, context, faults, panel, lines } = at;
  await dining(at);
  const before = await amounts(at);
  await page.getByLabel('How many of Side chair').fill('0');
  await page.getByLabel('How many of Side chair').press('Tab');
  await lines.nth(0).getByText('Type a whole number from 1 to 999.').waitFor();
  await page.reload();
  await ready(page);
  await page.getByRole('tab', { name: 'Price and work' }).click();
  await priced(at);
  assert.deepEqual(await amounts(at), before);
  assert.equal(await page.getByLabel('How many of Side chair').inputValue(), '6');
  // What cannot be read is set aside and said.
  await page.evaluate(() => localStorage.setItem('crestrail/order', '{"crestrail":"order/9"}'));
  await page.reload();
  await ready(page);
  await page.getByRole('tab', { name: 'Price and work' }).click();
  await page.getByText('The order kept in this browser could not be read').waitFor();
  assert.ok(await page.evaluate(() => Object.keys(localStorage).some((key) => key.startsWith('crestrail/order-unread-'))));
  await panel.getByText('The quote is for 1 of the chair shown.').waitFor();
  assert.deepEqual(faults, []);
  await context.close();
});

test('a design that cannot be priced is named at its line', async () => {
  const at = await atPrices();
  const { page, context, desk, panel, lines } = at;
  await dining(at);
  const { text } = await desk.saved(() => panel.getByRole('button', { name: 'Save the order' }).click());
  const order = JSON.parse(text);
  Object.assign(order.lines[1].knobs, { back: 'laths', fill_thickness: 8 });
  const shop = JSON.parse(await readFile(new URL('../../core/chair/data/shop.json', import.meta.url), 'utf8'));
  await desk.openFile(JSON.stringify({ ...shop, cutters: [8] }), 'shop.json');
  await page.getByText('The prices are now those of').waitFor();
  await desk.openFile(JSON.stringify(order), 'order.json');
  await lines.nth(1).getByText('Armchair cannot be built.').or(lines.nth(1).getByText('Chair cannot be built.')).waitFor();
  await panel.getByText('There is no price yet: see line 2.').waitFor();
  assert.equal(await lines.count(), 2);
  await context.close();
});

test('the quote is a sound PDF, and dropped on the page it opens the very same order', async () => {
  const at = await atPrices();
  const { page, context, faults, desk, panel, lines } = at;
  await dining(at);
  await panel.getByLabel('For', { exact: true }).fill('Zoë Čapek');
  await panel.getByLabel('Name of the order').fill('Dining room');
  await panel.getByLabel('Number', { exact: true }).fill('2026/7');
  await panel.getByLabel('Date', { exact: true }).fill('2026-03-09');
  const { text } = await desk.saved(() => panel.getByRole('button', { name: 'Save the order' }).click());
  const { name, bytes } = await savedBytes(page, () => panel.getByRole('button', { name: 'Save the quote, PDF' }).click());
  assert.equal(name, 'quote-2026-7.pdf');
  await panel.getByText('Saved “quote-2026-7.pdf”.').waitFor();
  const folder = await mkdtemp(join(tmpdir(), 'quote-'));
  const file = join(folder, name);
  await writeFile(file, bytes);
  assert.match((await run('qpdf', ['--check', file])).stdout, /No syntax or stream encoding errors found/);
  const words = (await run('pdftotext', ['-layout', file, '-'])).stdout;
  for (const needed of ['Quote 2026/7', '9 March 2026', 'Zoë Čapek', 'Parts of 2 ×', '1 of 4']) assert.ok(words.includes(needed), needed);
  const inside = (await run('qpdf', ['--show-attachment=order.json', file])).stdout;
  assert.deepEqual(JSON.parse(inside), JSON.parse(text));
  await rm(folder, { recursive: true });
  const before = await amounts(at);
  await page.getByRole('button', { name: 'Empty the order' }).click();
  await panel.getByText('The quote is for 2 of the chair shown.').waitFor();
  await drop(page, name, 'application/pdf', bytes);
  await page.getByText(/Opened the order “Dining room”: 8 chairs of 2 designs/).waitFor();
  await priced(at);
  assert.deepEqual(await amounts(at), before);
  assert.equal(await panel.getByLabel('For', { exact: true }).inputValue(), 'Zoë Čapek');
  const again = await desk.saved(() => panel.getByRole('button', { name: 'Save the order' }).click());
  assert.deepEqual(JSON.parse(again.text), JSON.parse(text));
  // A PDF of another program is refused, and nothing is lost.
  await drop(page, 'other.pdf', 'application/pdf', Buffer.from('%PDF-1.4\n1 0 obj<</Type/Catalog>>endobj\ntrailer<</Root 1 0 R>>\n'));
  await page.getByText('No order or design of this program is in it.').waitFor();
  assert.equal(await lines.count(), 2);
  assert.deepEqual(faults, []);
  await context.close();
});

test('one timber plan is drawn for the whole order', async () => {
  const at = await atPrices();
  const { page, context, faults, panel } = at;
  await dining(at);
  await panel.getByText('How to saw it', { exact: true }).click();
  await panel.getByText('For 1 chair: boards for').waitFor();
  await page.locator('#plan-whole').selectOption({ label: 'the order, 8 chairs of 2 designs' });
  await panel.getByRole('button', { name: 'Work it out' }).click();
  await panel.getByText('For 8 chairs: boards for').waitFor();
  await page.locator('.sawing-group > .job').first().waitFor({ state: 'hidden' });
  const letters = await page.locator('.sawing-group .board [data-letter]').evaluateAll((pieces) => pieces.map((piece) => piece.getAttribute('data-letter')));
  for (const letter of ['1A', '2A', '1B', '2B']) assert.ok(letters.includes(letter), letter);
  // Another chair on screen leaves the order's plan; another number in the order puts it away.
  await new Desk(page).changing(() => new Desk(page).kind('Stool').click());
  assert.ok((await page.locator('.sawing-group .board').count()) > 0);
  await page.getByLabel('How many of Side chair').fill('5');
  await page.getByLabel('How many of Side chair').press('Tab');
  await page.waitForFunction(() => document.querySelectorAll('.sawing-group .board').length === 0);
  assert.deepEqual(faults, []);
  await context.close();
});

test('prices by number are told for each design, on a phone without scrolling sideways', async () => {
  const at = await atPrices({ viewport: sizes.phone });
  const { page, context, faults, panel } = at;
  await dining(at);
  await panel.getByText('Price by number of chairs', { exact: true }).first().click();
  await panel.locator('.quote tbody').nth(1).locator('tr').nth(11).waitFor();
  assert.deepEqual(await panel.locator('.quote details h4').count(), 2);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  assert.deepEqual(faults, []);
  await context.close();
});
