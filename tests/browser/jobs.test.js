// Whatever takes long: it tells that it has begun, how far it is, and that it was stopped, by its button or by Escape; nothing is left half
// done, and the next job goes as if nothing had been.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { atDesk } from './desk.js';
import { sizes, together } from './harness.js';

const here = together();
const at = (run) => atDesk(here, sizes.desk, run);

/** A worker that never answers what takes long, so that a job can be stopped on any machine: to be put into the page. */
const silent = () => {
  const post = Worker.prototype.postMessage;
  const long = ['file', 'exchange', 'sheet', 'benchBook', 'workPages', 'plan', 'planFile', 'quotePdf', 'quote', 'order', 'tornado', 'makeItFit'];
  globalThis.answering = false;
  Worker.prototype.postMessage = function (...args) {
    const { call } = args[0] ?? {};
    // The search for ranges goes by slices on the worker that answers the knobs: it is slow, and holds nothing up.
    if (call === 'ranges' && !globalThis.answering) setTimeout(() => post.apply(this, args), 400);
    else if (call === 'step' && globalThis.slowSteps) setTimeout(() => post.apply(this, args), 1500);
    else if (globalThis.answering || !long.includes(call)) post.apply(this, args);
  };
};
const answering = (page, is) => page.evaluate((on) => (globalThis.answering = on), is);

/** Begins a job, sees that it tells so, and stops it twice: by its button and by Escape. */
async function stopped(page, place, begin, says) {
  for (const stop of ['button', 'Escape']) {
    await begin();
    const control = place.locator('.job:visible');
    await control.getByRole('progressbar').waitFor();
    await place.locator('[role="status"]').filter({ hasText: says }).first().waitFor();
    if (stop === 'button') await control.getByRole('button', { name: 'Stop', exact: true }).click();
    else await page.keyboard.press('Escape');
    await place.locator('[role="status"]').filter({ hasText: 'Stopped.' }).first().waitFor();
    await control.waitFor({ state: 'hidden' });
  }
}

/** No file came of what was stopped. */
async function nothingSaved(page, act) {
  const saved = [];
  page.on('download', (download) => saved.push(download.suggestedFilename()));
  await act();
  await page.waitForTimeout(100);
  assert.deepEqual(saved, []);
}

describe('stopped and begun again', () => {
  test('files to take away, solids, sheets, the bench book, pages of the work', () =>
    at(async (desk, page) => {
      await page.evaluate(silent);
      const exports = page.locator('#exports');
      const sheets = page.locator('.sheets');
      const work = page.locator('.bench-steps');
      const bind = page.getByRole('button', { name: 'Save the bench book, PDF' });
      await nothingSaved(page, async () => {
        await stopped(page, exports, () => page.getByRole('button', { name: 'Cutting list, CSV' }).click(), 'Making');
        await page.locator('.solids > summary').click();
        for (const button of await page.locator('.solids .export-buttons button').all()) await stopped(page, exports, () => button.click(), 'Making');
        await page.getByRole('tab', { name: 'Sheets' }).click();
        await page.locator('.sheet-row').first().waitFor();
        await stopped(page, sheets, () => bind.click(), 'Drawing the sheets');
        await stopped(page, sheets, () => page.locator('.sheet-row button').first().click(), 'Drawing the sheets');
        await page.getByRole('tab', { name: 'How it goes together' }).click();
        await work.locator('summary').click();
        await stopped(page, work, () => work.locator('.export-buttons button').first().click(), 'Drawing the sheets');
      });
      await answering(page, true);
      assert.match((await desk.saved(() => page.getByRole('button', { name: 'Cutting list, CSV' }).click())).text, /^\S/);
      assert.match((await desk.saved(() => page.locator('.solids .export-buttons button').first().click())).text, /^ISO-10303-21;/);
      await page.getByRole('tab', { name: 'Sheets' }).click();
      assert.match((await desk.saved(() => bind.click())).text, /^%PDF/);
      await sheets.getByText('Saved').waitFor();
    }));

  test('the timber plan and its files, quotes, prices by number, what moves the price', () =>
    at(async (desk, page) => {
      await page.evaluate(silent);
      await page.getByRole('tab', { name: 'Price and work' }).click();
      const panel = page.getByRole('tabpanel', { name: 'Price and work' });
      const quote = panel.locator('.quote');
      const breaks = quote.locator('.bill-group');
      await stopped(page, quote, () => panel.getByRole('button', { name: 'Save the quote, PDF' }).click(), 'Writing the quote');
      await stopped(page, quote, () => quote.locator('.export-buttons .plain-button', { hasText: 'HTML' }).click(), 'Writing the quote');
      await stopped(page, breaks, async () => {
        if (await breaks.evaluate((details) => details.open)) await breaks.locator('summary').click();
        await breaks.locator('summary').click();
      }, 'Working out the prices');
      const moves = panel.locator('.moves-group');
      await moves.locator('summary').click();
      await moves.getByRole('button', { name: 'Stop' }).click();
      await stopped(page, moves, () => moves.getByRole('button', { name: 'Work it out again' }).click(), 'Trying sizes');
      const plan = panel.locator('.sawing-group');
      await plan.locator('summary').click();
      await plan.getByRole('button', { name: 'Stop' }).click();
      await stopped(page, plan, () => plan.getByRole('button', { name: 'Work it out' }).click(), 'Laying pieces');
      assert.equal(await plan.locator('.board').count(), 0, 'of a plan that was stopped nothing is shown');
      await answering(page, true);
      await plan.getByRole('button', { name: 'Work it out' }).click();
      await plan.locator('.board').first().waitFor();
      await plan.locator('.job').first().waitFor({ state: 'hidden' });
      await answering(page, false);
      const boards = await plan.locator('.board').count();
      await nothingSaved(page, () => stopped(page, plan, () => plan.locator('.export-buttons button').first().click(), 'Making'));
      assert.equal(await plan.locator('.board').count(), boards, 'the plan stays');
    }));

  test('comparing: the dialog stays open', () =>
    at(async (desk, page) => {
      await page.evaluate(silent);
      const shelf = page.getByRole('dialog', { name: 'Shelf', exact: true });
      await desk.menu('Put it on the shelf');
      await shelf.getByRole('button', { name: 'Duplicate “Side chair”' }).click();
      await shelf.locator('.shelf-picture svg').nth(1).waitFor();
      for (const box of await shelf.locator('.shelf-cards').getByRole('checkbox').all()) await box.check();
      await page.evaluate(() => (globalThis.slowSteps = true));
      await shelf.getByRole('button', { name: 'Compare (2)' }).click();
      const compare = page.locator('dialog.compare-dialog');
      await compare.getByRole('progressbar').waitFor();
      await page.keyboard.press('Escape');
      await compare.getByText('Stopped.').waitFor();
      assert.equal(await compare.locator('td').count(), 0, 'nothing half drawn');
      await page.keyboard.press('Escape');
      await compare.waitFor({ state: 'hidden' });
    }));

  test('making it fit, and how far sizes hold', () =>
    at(async (desk, page) => {
      await page.evaluate(silent);
      const before = await desk.shown();
      await page.getByRole('tab', { name: 'Fit' }).click();
      const fit = page.locator('.fit');
      await stopped(page, fit, () => fit.getByRole('button', { name: 'Make it fit' }).click(), 'Trying sizes');
      assert.deepEqual(await desk.shown(), before, 'the chair is as it was');
      // It begins by itself when the knobs rest, and shows itself when it takes long.
      await desk.changing(() => desk.type('Seat height', '441'));
      const ranges = page.locator('.ranges-job');
      await ranges.getByRole('progressbar').waitFor();
      await page.evaluate(() => document.activeElement?.blur());
      await page.keyboard.press('Escape');
      await ranges.getByText('Stopped.').waitFor();
      const found = () => page.locator('.knob-holds:not(:empty)').count();
      const some = await found();
      await page.waitForTimeout(600);
      assert.equal(await found(), some, 'nothing more is looked for');
      await answering(page, true);
      await desk.changing(() => desk.type('Seat height', '442'));
      await page.waitForFunction((was) => document.querySelectorAll('.knob-holds:not(:empty)').length > was, some);
    }));
});

test('the knobs answer while a file is made', () =>
  at(async (desk, page) => {
    await page.evaluate(silent);
    await page.getByRole('tab', { name: 'Sheets' }).click();
    await page.locator('.sheet-row').first().waitFor();
    await page.getByRole('button', { name: 'Save the bench book, PDF' }).click();
    await page.locator('.sheets .job').waitFor();
    await desk.changing(() => desk.type('Seat height', '451'));
    assert.equal(await page.locator('.sheets .job').isVisible(), true);
    // Escape in an open dialog belongs to the dialog.
    await desk.menu('Keys…');
    await page.keyboard.press('Escape');
    assert.equal(await page.locator('.sheets .job').isVisible(), true);
    await page.keyboard.press('Escape');
    await page.locator('.sheets').getByText('Stopped.').waitFor();
  }));
