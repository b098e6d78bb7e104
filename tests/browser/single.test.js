// The one self-contained file, opened from a disk.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { Desk } from './desk.js';
import { browse, open, single, sizes } from './harness.js';
import { savedPdf } from './pdf.js';

let browser;
before(async () => {
  browser = await browse();
});
after(() => browser.close());

for (const [name, viewport] of Object.entries(sizes)) {
  test(`it shows and changes a chair without asking for anything, at the width of a ${name}`, async () => {
    const { page, context, faults } = await open(browser, single, { viewport, offline: true });
    const desk = new Desk(page);
    const before = await desk.shown();
    await desk.slider('Seat height').focus();
    await desk.changing(() => page.keyboard.press('ArrowRight'));
    assert.notDeepEqual(await desk.shown(), before);
    assert.ok((await desk.rows.count()) >= 8);
    assert.equal(await page.evaluate(() => document.fonts.check('16px "Crestrail Sans"')), true);
    assert.deepEqual(faults, []);
    await context.close();
  });
}

test('it saves a sheet as PDF, from the core and the typefaces inside', async () => {
  const { page, context, faults } = await open(browser, single, { offline: true });
  await page.getByRole('tab', { name: 'Sheets' }).click();
  await page.locator('.sheet-group').first().waitFor();
  const { name, words, sheets, design } = await savedPdf(page, () => page.getByRole('button', { name: 'Save the drawing, PDF' }).click());
  assert.match(name, /\.pdf$/);
  assert.ok(sheets >= 3 && /Parts list/i.test(words));
  assert.equal(design.family, 'side_chair');
  assert.deepEqual(faults, []);
  await context.close();
});

test('what is loaded when it is asked for lies inside: the shelf, and designs side by side', async () => {
  const { page, context, faults } = await open(browser, single, { offline: true });
  await page.keyboard.press('k');
  const shelf = page.getByRole('dialog', { name: 'Shelf', exact: true });
  await shelf.getByText('stands on the shelf.').waitFor();
  await shelf.getByRole('button', { name: /^Duplicate/ }).click();
  for (const box of await shelf.locator('.shelf-card').getByRole('checkbox').all()) await box.check();
  await shelf.getByRole('button', { name: 'Compare (2)' }).click();
  await page.locator('.compare-picture svg').nth(1).waitFor();
  assert.deepEqual(faults, []);
  await context.close();
});
