// Sheets for the bench: the list of them, the unit of their figures, and what is saved.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Desk } from './desk.js';
import { open, sizes, together } from './harness.js';
import { savedPdf } from './pdf.js';

const here = together();
const flat = (text) => text.replace(/\s+/g, ' ');

async function atSheets(viewport) {
  const opened = await open(here.browser, here.server.address, { viewport });
  const { page } = opened;
  await page.getByRole('tab', { name: 'Sheets' }).click();
  const panel = page.getByRole('tabpanel', { name: 'Sheets' });
  const group = (name) => panel.locator('.sheet-group').filter({ has: page.getByRole('heading', { name, exact: true }) });
  await group('Labels').waitFor();
  for (const folded of await panel.getByText('One by one').all()) await folded.click();
  return { ...opened, desk: new Desk(page), panel, group };
}

for (const [name, viewport] of Object.entries(sizes)) {
  test(`at the width of a ${name} all sheets are listed, and only those at full size say so`, async () => {
    const { page, context, faults, panel, group } = await atSheets(viewport);
    const kinds = await panel.getByRole('heading', { level: 3 }).allInnerTexts();
    assert.deepEqual(kinds, ['Drawing to a scale', 'Templates, at full size', 'Rod, at full size', 'Setting-out sheets', 'Gauges and cutters', 'Labels']);
    for (const kind of kinds) {
      const rows = await group(kind).getByRole('listitem').allInnerTexts();
      assert.ok(rows.length > 0, kind);
      const sized = rows.filter((row) => /\d × \d+ mm/.test(row)).length;
      const whole = rows.length > 1 ? 1 : 0;
      assert.equal(sized, kind.endsWith('full size') ? rows.length - whole : 0, `${kind}: ${rows}`);
      assert.equal(/100 %/.test(await group(kind).innerText()), kind.endsWith('full size'), kind);
    }
    assert.equal(await page.evaluate(() => (scrollTo(1e6, scrollY), scrollX)), 0, 'the page can be scrolled sideways');
    const small = await panel.locator('button, select').evaluateAll((all) => all.filter((e) => e.checkVisibility() && Math.min(e.offsetWidth, e.offsetHeight) < 24).map((e) => e.outerHTML));
    assert.deepEqual(small, [], 'too small to be hit');
    assert.deepEqual(faults, []);
    await context.close();
  });
}

test('another paper takes another number of sheets', async () => {
  const { page, context, faults, panel, group } = await atSheets(sizes.desk);
  const count = async () => {
    const words = await group('Rod, at full size').getByRole('listitem').nth(1).innerText();
    return Number(/(\d+) sheets? of paper/.exec(words)?.[1]);
  };
  const small = await count();
  await panel.getByRole('combobox', { name: 'Paper' }).selectOption('a3');
  const large = await count();
  assert.ok(large >= 1 && large < small, `${large} sheets of A3, ${small} of A4`);
  const save = page.getByRole('button', { name: 'Save Rod: front as PDF' });
  assert.equal((await savedPdf(page, () => save.click())).sheets, large);
  assert.deepEqual(faults, []);
  await context.close();
});

test('a setting-out sheet is saved with figures in the unit that was chosen, and with the design inside', async () => {
  const { page, context, faults, desk, panel, group } = await atSheets(sizes.phone);
  await desk.changing(() => desk.type('Seat height', '433'));
  await page.locator('.sheet-groups:not(.stale)').waitFor();
  const save = group('Setting-out sheets').getByRole('button', { name: /PDF/ }).nth(1);
  const title = (await save.getAttribute('aria-label'))?.match(/^Save (.*) as PDF$/)?.[1] ?? '';
  const metric = await savedPdf(page, () => save.click());
  await panel.getByText(`Saved ${metric.name}.`).waitFor();
  assert.ok(title && flat(metric.words).includes(flat(title)), `${title} is not in ${metric.words}`);
  assert.equal(metric.design.seat_height, 433);
  assert.ok(!metric.words.includes('100 %'), 'it is not at full size');
  await panel.getByRole('combobox', { name: 'Lengths, on all sheets' }).selectOption('in32');
  await page.locator('.sheet-groups:not(.stale)').waitFor();
  const inches = await savedPdf(page, () => save.click());
  assert.notEqual(inches.words, metric.words);
  assert.match(inches.words, /Inches/);
  assert.match(metric.words, /Millimetres/);
  assert.doesNotMatch(inches.words, /Millimetres/);
  assert.deepEqual(faults, []);
  await context.close();
});

test('the drawing to a scale is saved with views, sections and parts list', async () => {
  const { page, context, faults, panel } = await atSheets(sizes.desk);
  const { name, words, sheets, design } = await savedPdf(page, () => panel.getByRole('button', { name: 'Save the drawing, PDF' }).click());
  assert.match(name, /^chair-drawing.*\.pdf$/);
  assert.ok(sheets >= 3, `${sheets} sheets`);
  assert.match(words, /\b1\s?:\s?\d/);
  assert.match(words, /Parts list/i);
  assert.equal(design.family, 'side_chair');
  await panel.getByText(`Saved ${name}.`).waitFor();
  assert.deepEqual(faults, []);
  await context.close();
});
