// The bench book: one button, one file with every chapter, in the unit and on the paper that were chosen.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { savedFile } from './engines.js';
import { open, sizes, together } from './harness.js';
import { savedPdf } from './pdf.js';

const here = together();
const chapters = ['Drawing', 'Cutting list', 'Timber plan', 'Setting out', 'Gauges and cutters', 'Joints', 'Order of work', 'Card for the bench', 'Findings', 'Labels'];

for (const [name, viewport] of Object.entries(sizes)) {
  test(`at the width of a ${name} the book is bound, told of on the way, and holds what its contents say`, async () => {
    const { page, context, faults } = await open(here.browser, here.server.address, { viewport });
    await page.getByRole('tab', { name: 'Sheets' }).click();
    const panel = page.getByRole('tabpanel', { name: 'Sheets' });
    await panel.getByRole('heading', { name: 'Labels', exact: true }).waitFor();
    await panel.getByRole('combobox', { name: 'Paper' }).selectOption('letter');
    const book = await savedPdf(page, () => panel.getByRole('button', { name: 'Save the bench book, PDF' }).click());
    await panel.getByText(`Saved ${book.name}.`).waitFor();
    assert.match(book.name, /bench-book-letter\.pdf$/);
    assert.match(book.title, /: bench book$/);
    const pages = book.words.split('\f').slice(0, -1);
    assert.equal(pages.length, book.sheets);
    for (const [i, words] of pages.entries()) assert.match(words.trimEnd(), new RegExp(`${i + 1} of ${pages.length}$`), `page ${i + 1} has another number`);
    // The contents name a page for each chapter, and that page's foot names the chapter.
    for (const chapter of chapters) {
      const at = Number(new RegExp(`^${chapter} +(\\d+)$`, 'm').exec(pages[0] ?? '')?.[1]);
      const foot = (pages[at - 1] ?? '').trimEnd().split('\n').at(-1) ?? '';
      assert.ok(foot.trimStart().startsWith(chapter), `${chapter} is not on page ${at}: ${foot}`);
    }
    assert.ok(book.words.includes('Millimetres') && !book.words.includes('Inches to'));
    assert.equal(book.design.family, 'side_chair');
    assert.deepEqual(faults, []);
    await context.close();
  });
}

test('one choice of the unit holds for book, order of work and files, and is kept', async () => {
  const { page, context, faults } = await open(here.browser, here.server.address, { viewport: sizes.desk });
  await page.getByRole('tab', { name: 'How it goes together' }).click();
  await page.getByText('The whole order of work').click();
  const work = page.getByRole('tabpanel', { name: 'How it goes together' });
  await work.getByRole('combobox', { name: 'Lengths, on all sheets' }).selectOption('in16');
  await work.getByText(/opening \d+ \d+\/\d+/).first().waitFor();
  const pages = await savedPdf(page, () => work.getByRole('button', { name: 'Order of work, PDF' }).click());
  assert.match(pages.words, /Inches to 1\/16/);
  assert.equal(pages.design.family, 'side_chair', 'the design is inside');
  const [card] = await Promise.all([savedFile(page), work.getByRole('button', { name: 'Card for the bench, SVG' }).click()]);
  assert.match(card.suggestedFilename(), /bench-card\.svg$/);
  await page.reload();
  await page.getByRole('tab', { name: 'Sheets' }).click();
  const panel = page.getByRole('tabpanel', { name: 'Sheets' });
  await panel.getByRole('heading', { name: 'Labels', exact: true }).waitFor();
  assert.equal(await panel.getByRole('combobox', { name: 'Lengths, on all sheets' }).inputValue(), 'in16');
  const book = await savedPdf(page, () => panel.getByRole('button', { name: 'Save the bench book, PDF' }).click());
  assert.match(book.words, /Inches to 1\/16/);
  assert.ok(!book.words.includes('Millimetres, rounded'));
  assert.deepEqual(faults, []);
  await context.close();
});

test('a roll makes no book, and the page says which papers do', async () => {
  const { page, context, faults } = await open(here.browser, here.server.address, { viewport: sizes.desk });
  await page.getByRole('tab', { name: 'Sheets' }).click();
  const panel = page.getByRole('tabpanel', { name: 'Sheets' });
  await panel.getByRole('heading', { name: 'Labels', exact: true }).waitFor();
  for (const paper of ['roll', 'a1']) {
    await panel.getByRole('combobox', { name: 'Paper' }).selectOption(paper);
    await panel.getByRole('button', { name: 'Save the bench book, PDF' }).click();
    await panel.getByText(/This is printed on pages, not on .*Choose one of: A4, A3, Letter, Tabloid/).waitFor();
  }
  assert.deepEqual(faults, []);
  await context.close();
});
