// Checking in: what a customer sends, held against the workshop's own book; and the Showroom beside the Workshop.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { describe, test } from 'node:test';
import { atDesk } from './desk.js';
import { open, sizes, together } from './harness.js';

const here = together();
const at = (run, viewport = sizes.desk) => atDesk(here, viewport, run);

const showroom = JSON.parse(await readFile(new URL('../../core/chair/data/showroom.json', import.meta.url), 'utf8'));

/** Drops something on the page. */
function drop(page, { file, text }) {
  return page.evaluate(
    ([name, body, plain]) => {
      const carried = new DataTransfer();
      if (name) carried.items.add(new File([body], name, { type: 'application/json' }));
      if (plain) carried.setData('text/plain', plain);
      const at = document.querySelector('#picture');
      for (const type of ['dragover', 'drop']) at.dispatchEvent(new DragEvent(type, { dataTransfer: carried, bubbles: true, cancelable: true }));
    },
    [file?.name, file?.text, text],
  );
}

/** The total on the Workshop's title block, in minor units. */
async function total(page) {
  return Math.round(Number((await page.locator('.cell-price dd').first().innerText()).replace(/[^\d.]/g, '')) * 100);
}

function orderOf(design, told) {
  return JSON.stringify({ crestrail: 'order/2', name: 'Kitchen', customer: 'Ada', lines: [{ name: 'Kitchen chair', quantity: 4, knobs: design, told }] });
}

async function designOf(desk) {
  const { text } = await desk.saved(() => desk.menu('Save the design'));
  return JSON.parse(text).knobs;
}

const shown = (minor) => ({ offer: 'Kitchen chair', label: { way: 'shown', currency: 'EUR', minor } });

describe('a customer’s file', () => {
  test('with the true price has nothing to tell', () =>
    at(async (desk, page) => {
      const [design, minor] = [await designOf(desk), await total(page)];
      await drop(page, { file: { name: 'kitchen.order.json', text: orderOf(design, shown(minor)) } });
      const dialog = page.getByRole('dialog', { name: 'Check in from a customer' });
      await dialog.getByText('All is as the customer saw it.').waitFor();
      assert.match(await dialog.innerText(), /From Ada[\s\S]*4 × Kitchen chair/);
    }));

  test('with an altered price stands out, and opens as it is', () =>
    at(async (desk, page) => {
      const [design, minor] = [await designOf(desk), await total(page)];
      const changed = { ...design, seat_height: 470 };
      await drop(page, { file: { name: 'kitchen.order.json', text: orderOf(changed, shown(10_000)) } });
      const dialog = page.getByRole('dialog', { name: 'Check in from a customer' });
      const grave = dialog.locator('.grave');
      await grave.waitFor();
      assert.match(await grave.innerText(), /Price\s+Customer’s:\s*EUR 100\.00\s+Here:\s*EUR \d+\.\d\d\s+The price the customer sends is not the price of this chair/);
      const border = await grave.evaluate((line) => getComputedStyle(line).borderInlineStartColor);
      assert.equal(border, await page.evaluate(() => {
        const probe = document.createElement('i');
        probe.style.color = 'var(--fails)';
        document.body.append(probe);
        return getComputedStyle(probe).color;
      }));
      await desk.changing(() => dialog.getByRole('button', { name: 'Open this chair' }).click());
      assert.equal(await desk.slider('Seat height').inputValue(), '470');
      assert.notEqual(await total(page), 10_000);
      assert.ok(minor > 10_000);
    }));

  test('edited into nonsense is refused by name, and the chair stays', () =>
    at(async (desk, page) => {
      const design = await designOf(desk);
      const before = await desk.shown();
      const dialog = page.getByRole('dialog', { name: 'Check in from a customer' });
      await desk.menu('Check in from a customer…');
      for (const [text, says] of [
        [orderOf(design, { label: { way: 'gift', currency: 'EUR', minor: 1 } }), /lines\[0\]\.told\.label\.way: "gift" is not known/],
        [orderOf({ ...design, seat_height: 9000 }, shown(1)), /lines\[0\]\.knobs\.seat_height/],
        [orderOf(design, shown(1)).replace('order/2', 'order/9'), /order\/9 is newer/],
        ['Dear maker, I want a chair.', /no link to a chair/],
        ['https://maker.example/#design/1;seat_height=460;check=00000000', /not whole/],
      ]) {
        await dialog.getByLabel('Link or mail').fill(text);
        await dialog.getByRole('button', { name: 'Check it' }).click();
        await dialog.getByRole('alert').filter({ hasText: says }).waitFor();
      }
      await dialog.getByRole('button', { name: 'Close' }).click();
      assert.deepEqual(await desk.shown(), before);
    }));
});

test('a link, dropped or pasted with its mail, is checked in; what is not offered is named', () =>
  at(async (desk, page) => {
    await desk.openFile(JSON.stringify(showroom), 'showroom.json');
    await desk.notices.filter({ hasText: 'The Showroom is now that of Quillbeam' }).waitFor();
    await desk.changing(() => desk.type('Seat height', '500'));
    const link = await desk.link('seat_height=500');
    const dialog = page.getByRole('dialog', { name: 'Check in from a customer' });
    await drop(page, { text: link });
    await dialog.getByText('Seat height is 500 mm; with “Kitchen chair” it is from 420 to 480 mm.').waitFor();
    await dialog.getByText('The customer was told no price.').waitFor();
    await dialog.getByRole('button', { name: 'Check another' }).click();
    await dialog.getByLabel('Link or mail').fill(`Hello,\nplease see <${link}>.\nAda`);
    await dialog.getByRole('button', { name: 'Check it' }).click();
    await dialog.locator('.grave').waitFor();
  }));

test('a wrong showroom.json is refused by name, and the one in force stays', () =>
  at(async (desk) => {
    const wrong = { ...showroom, colours: { ...showroom.colours, light: '#ffffff' } };
    await desk.openFile(JSON.stringify(wrong), 'mine.json');
    await desk.notices.filter({ hasText: 'colours.light. #ffffff cannot be read well on light paper' }).waitFor();
  }));

test('the Showroom beside the Workshop previews the maker’s own file with true prices', () =>
  at(async (desk, page) => {
    const own = { ...showroom, brand: 'My own bench', price: 'shown', offers: showroom.offers.slice(0, 1) };
    const price = await total(page);
    await desk.openFile(JSON.stringify(own), 'showroom.json');
    await desk.notices.getByRole('button', { name: 'See it' }).click();
    await page.locator('html[data-ready]').waitFor();
    assert.equal(await page.getByRole('heading', { level: 1 }).innerText(), 'My own bench');
    assert.equal(await total(page), price, 'the same chair costs the same on both sides');
    await page.getByRole('link', { name: 'Back to the Workshop' }).click();
    await page.getByRole('tab', { name: 'Cutting list' }).waitFor();
  }));

test('the invented workshop’s Showroom finds its prices “from” by itself', async () => {
  const { page, context, faults } = await open(here.browser, `${here.server.address}showroom.html`, { viewport: sizes.phone });
  await page.locator('.cell-price dd').first().filter({ hasText: /from €\d/ }).waitFor({ timeout: 30_000 });
  assert.deepEqual(faults, []);
  await context.close();
});
