// A maker's way from nothing: a book and a showroom filled in on the page, published, put on a plain web site, a customer's
// phone, and what the customer sends checked in at the Workshop.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdtemp, readFile, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { Desk } from './desk.js';
import { savedFile } from './engines.js';
import { open, ready, sizes, together } from './harness.js';
import { host } from './site.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const here = together();

/** What the maker types, by the words beside the field. No figure of it stands anywhere else. */
const typed = {
  Name: 'Ashdown Bench (invented)',
  'An hour at the bench costs': '33.37',
  'Overhead for each hour': '9,71',
  'Your times, of the invented ones': '117.3',
  'A peg': '0.27',
  'A kilogram of glue': '11.83',
  'A litre of finish': '37.91',
  'For what goes wrong': '3.7',
  Margin: '26.3',
  'On material instead': '13.9',
  'Delivery, each order': '61.5',
  'A price is a multiple of': '1',
  Tax: '19',
};
const timber = { 'European ash': '1437.3', 'European oak': '2511.7', 'black cherry': '2377.9' };

let folder;
let site;
let context;
let page;
let faults;
const made = {};
/** Saves a file by its button, into the folder. */
async function save(button) {
  const [download] = await Promise.all([savedFile(page), page.getByRole('button', { name: button }).click()]);
  const path = join(folder, download.suggestedFilename());
  await download.saveAs(path);
  return readFile(path, 'utf8');
}

function run(command, args) {
  return new Promise((settle, fail) => {
    const child = spawn(command, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += text));
    child.once('exit', (code) => (code === 0 ? settle(said) : fail(new Error(said))));
  });
}

/** The price on a title block, in cents. */
async function price(at) {
  return Math.round(Number((await at.locator('.cell-price dd').first().innerText()).replace(/[^\d.]/g, '')) * 100);
}

describe('from nothing to a customer’s chair', () => {
  before(async () => {
    folder = await mkdtemp(join(tmpdir(), 'crestrail-walk-'));
    ({ page, context, faults } = await open(here.browser, here.server.address, { viewport: sizes.desk }));
  });
  after(async () => {
    await context.close();
    await site?.stop();
    await rm(folder, { recursive: true });
  });

  test('the maker fills in a book, and what is wrong is said beside its field', async () => {
    await new Desk(page).menu('Set up your workshop…');
    await page.locator('html[data-ready]').waitFor();
    const book = page.locator('#book');
    for (const [label, text] of Object.entries(typed)) await book.getByRole('textbox', { name: label, exact: true }).fill(text);
    await book.getByLabel('Joints are cut').selectOption('router');
    await page.getByRole('button', { name: 'Use it' }).click();
    await book.getByRole('alert').filter({ hasText: 'No species is listed' }).waitFor();
    for (const [label, text] of Object.entries(timber)) await book.getByRole('textbox', { name: label }).fill(text);
    await book.getByRole('textbox', { name: 'Tax', exact: true }).fill('nineteen');
    await page.getByRole('button', { name: 'Use it' }).click();
    await book.getByRole('alert').filter({ hasText: /^Tax: Here must be a number/ }).waitFor();
    assert.equal(await page.evaluate(() => document.activeElement?.id), 'book-pricing-tax-percent');
    await book.getByRole('textbox', { name: 'Tax', exact: true }).fill(typed.Tax);
    made.book = JSON.parse(await save('Save shop.json'));
    await book.getByText('Prices are now those of Ashdown Bench (invented).').waitFor();
    assert.deepEqual(made.book.timber.species.map(({ species, price }) => [species, price]).sort(), [['ash_european', 1437.3], ['cherry_black', 2377.9], ['oak_european', 2511.7]]);
    assert.equal(made.book.labour.operations.choose_and_mark.minutes, 3.52, '3 minutes at 117.3 %');
    assert.deepEqual(made.book.stock.rack, []);
  });

  test('and says what customers see', async () => {
    const room = page.locator('#room');
    await room.getByRole('textbox', { name: 'Mail for quotes' }).fill('ashdown@bench.example');
    await room.getByLabel('Stool', { exact: true }).check();
    await room.getByRole('textbox', { name: 'What customers call it: Stool' }).fill('Milking stool');
    made.room = JSON.parse(await save('Save showroom.json'));
    assert.deepEqual([made.room.brand, made.room.price, made.room.offers.map(({ name }) => name)], [typed.Name, 'shown', ['Our chair', 'Milking stool']]);
    assert.match(await page.locator('#command').innerText(), /publish --showroom showroom\.json --shop shop\.json/);
    assert.deepEqual(faults, []);
  });

  test('it is published, with nothing private in it', async () => {
    const out = join(folder, 'chairs');
    await run('cargo', ['run', '--quiet', '--', 'publish', '--showroom', join(folder, 'showroom.json'), '--shop', join(folder, 'shop.json'), '--out', out]);
    const files = (await readdir(out, { recursive: true, withFileTypes: true })).filter((file) => file.isFile());
    const figures = [typed['An hour at the bench costs'], '9.71', '9,71', '11.83', '37.91', '26.3', '13.9', ...Object.values(timber), '3.52', '117.3'];
    const told = await readFile(join(out, 'showroom.json'), 'utf8');
    for (const figure of figures) assert.ok(!new RegExp(`(?<![\\d.])${figure.replace('.', '\\.')}(?!\\d)`).test(told), `${figure} is in showroom.json`);
    for (const { parentPath, name } of files) {
      const text = await readFile(join(parentPath, name), 'latin1');
      for (const figure of Object.values(timber)) assert.ok(!text.includes(figure), `${figure} is in ${name}`);
    }
    assert.ok(!files.some(({ name }) => name === 'main.js' || name === 'setup.js'), 'the Workshop is not published');
    site = await host({ '/chairs/': out });
  });

  test('a customer turns a knob on the phone, sees the price move, and asks for a quote', async () => {
    const phone = await open(here.browser, `${site.address}/chairs/`, { viewport: sizes.phone });
    const before = await price(phone.page);
    assert.ok(before > 10_000 && !(await phone.page.locator('#label').innerText()).includes('from'));
    const height = phone.page.getByRole('textbox', { name: 'Seat height', exact: true });
    await phone.page.getByRole('textbox', { name: 'Width in front', exact: true }).fill('500');
    await phone.page.getByRole('textbox', { name: 'Width in front', exact: true }).press('Enter');
    await height.fill('478');
    await height.press('Enter');
    await phone.page.waitForFunction((was) => Number((document.querySelector('.cell-price dd')?.textContent ?? '').replace(/[^\d.]/g, '')) * 100 > was + 50, before);
    // Both knobs are in it.
    await phone.page.locator('#label[aria-busy="false"]').waitFor();
    made.price = await price(phone.page);
    await phone.page.getByRole('button', { name: 'Ask for a quote' }).click();
    const dialog = phone.page.getByRole('dialog', { name: 'Ask for a quote' });
    await dialog.getByLabel('Your name').fill('Ida');
    await phone.page.waitForFunction(() => document.querySelector('#ask-words').value.includes('Ida'));
    made.mail = await dialog.getByLabel('What the mail says').inputValue();
    const [download] = await Promise.all([savedFile(phone.page), dialog.getByRole('button', { name: 'Save order.json' }).click()]);
    made.order = JSON.parse(await readFile(await download.path(), 'utf8'));
    assert.deepEqual(made.order.lines[0].told.label, { way: 'shown', currency: 'EUR', minor: made.price });
    // Without the network, too, once the address holds the chair.
    await phone.page.waitForFunction(() => location.hash.includes('seat_height=478') && location.hash.includes('=500'));
    await phone.page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await phone.page.waitForLoadState('networkidle');
    await phone.context.setOffline(true);
    await phone.page.reload();
    await ready(phone.page);
    assert.equal(await price(phone.page), made.price);
    assert.deepEqual(phone.faults, []);
    await phone.context.close();
  });

  test('the element on a page of the maker’s own tells the same price', async () => {
    site.pages.set('/mine.html', '<!doctype html><meta charset="utf-8"><title>Mine</title><script type="module" src="chairs/crestrail-chair.js"></script><crestrail-chair offer="Our chair" style="height:40rem"></crestrail-chair>');
    const other = await here.browser.newContext({ viewport: sizes.phone, locale: 'en-GB' });
    const mine = await other.newPage();
    await mine.addInitScript(() => addEventListener('change', ({ detail }) => (window.told = detail), true));
    await mine.goto(`${site.address}/mine.html`);
    const link = made.mail.match(/#(design\S+)/)[1];
    await mine.evaluate((design) => document.querySelector('crestrail-chair').setAttribute('design', `#${design}`), link);
    await mine.waitForFunction(() => window.told?.design?.seat_height === 478, undefined, { timeout: 20_000 });
    const { label, price: words } = await mine.evaluate(() => window.told);
    assert.deepEqual([label.from, label.price_minor], [false, made.price]);
    assert.match(words, /^€/);
    await other.close();
  });

  test('the Workshop finds the customer’s chair as it was, and an altered price first', async () => {
    await page.goto(here.server.address);
    await ready(page);
    const desk = new Desk(page);
    await desk.menu('Check in from a customer…');
    const dialog = page.getByRole('dialog', { name: 'Check in from a customer' });
    await dialog.getByLabel('Link or mail').fill(JSON.stringify(made.order));
    await dialog.getByRole('button', { name: 'Check it' }).click();
    await dialog.getByText('All is as the customer saw it.').waitFor();
    await dialog.getByRole('button', { name: 'Check another' }).click();
    await dialog.getByLabel('Link or mail').fill(made.mail);
    await dialog.getByRole('button', { name: 'Check it' }).click();
    await dialog.getByText('All is as the customer saw it.').waitFor();
    await dialog.getByRole('button', { name: 'Check another' }).click();
    made.order.lines[0].told.label.minor -= 5000;
    await dialog.getByLabel('Link or mail').fill(JSON.stringify(made.order));
    await dialog.getByRole('button', { name: 'Check it' }).click();
    await dialog.getByText(/is not the price of this chair/).waitFor();
    await dialog.getByRole('button', { name: 'Open this chair' }).click();
    await page.waitForFunction((cents) => Math.round(Number((document.querySelector('.cell-price dd')?.textContent ?? '').replace(/[^\d.]/g, '')) * 100) === cents, made.price);
    assert.deepEqual(faults, []);
  });
});
