// Who sits here, how the chair fits, and the button that makes it fit.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { atDesk } from './desk.js';
import { sizes, together } from './harness.js';

const here = together();

/** The panel of fit, shown. */
async function panelOf(page) {
  await page.getByRole('tab', { name: 'Fit', exact: true }).click();
  return page.getByRole('tabpanel', { name: 'Fit', exact: true });
}

/** Opens the groups of knobs that are closed. */
async function openGroups(page) {
  await page.evaluate(() => document.querySelectorAll('#knobs details').forEach((group) => group.setAttribute('open', '')));
}

for (const [name, viewport] of Object.entries(sizes)) {
  describe(`at the width of a ${name}`, () => {
    test('each size stands beside what is wanted, with shares and where they come from', () => atDesk(here, viewport, async (_desk, page) => {
      const panel = await panelOf(page);
      const rows = panel.getByRole('row', { includeHidden: false }).filter({ has: page.getByRole('cell') });
      assert.ok((await rows.count()) >= 8, `${await rows.count()} rows`);
      const seat = await rows.first().innerText();
      for (const said of [/Seat height/, /450\s*mm/, /400 to 450/, /6 %/, /58 %/, /sound/]) assert.match(seat, said);
      assert.match(await panel.innerText(), /US soldiers measured in 2012.*leaner than most/s);
    }));

    test('a chair is made to fit one tall adult, and there is a way back', () => atDesk(here, viewport, async (desk, page) => {
      await openGroups(page);
      await page.getByRole('radio', { name: 'One adult, by height' }).check({ force: true });
      await desk.type('Height of the sitter', '1900');
      await desk.type('Height of the table', '800');
      const panel = await panelOf(page);
      await panel.getByText('An adult 1900 mm tall').waitFor();
      const before = await desk.shown();
      await desk.changing(() => panel.getByRole('button', { name: 'Make it fit' }).click());
      const height = Number(await desk.field('Seat height').inputValue());
      assert.ok(height >= 479 && height <= 499, `a seat of ${height} mm`);
      assert.match(await desk.notices.first().innerText(), /Made to fit: .*seat height/);
      await desk.changing(() => desk.notices.getByRole('button', { name: 'Undo' }).click());
      assert.deepEqual(await desk.shown(), before);
    }));
  });
}

test('a child’s chair shows no shares of women and men', () => atDesk(here, sizes.desk, async (_desk, page) => {
  await page.getByRole('radio', { name: 'Child’s chair' }).or(page.getByRole('radio', { name: "Child's chair" })).check({ force: true });
  const panel = await panelOf(page);
  await panel.getByText('A child 1200 mm tall').waitFor();
  assert.doesNotMatch(await panel.innerText(), /women/);
}));
