// The sizes on the picture as customers meet them: only what the maker opened, within the maker's limits.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { browse, open, sizes } from './harness.js';
import { host } from './site.js';

const published = fileURLToPath(new URL('../out/published', import.meta.url));
let browser;
let site;
before(async () => {
  [browser, site] = await Promise.all([browse(), host({ '/chairs/': published })]);
});
after(async () => {
  await browser.close();
  await site.stop();
});

test('only open knobs have a size on the picture, and it stops at the maker’s limits', async () => {
  const { page, context, faults } = await open(browser, `${site.address}/chairs/`, { viewport: sizes.desk });
  const shown = new Set();
  for (const look of ['Look from the corner, three-quarter view', 'Look at the front', 'Look at the side']) {
    await page.getByRole('button', { name: look }).click();
    await page.waitForTimeout(300);
    for (const name of await page.locator('.dimensions [data-knob]').evaluateAll((all) => all.map((e) => e.dataset.knob))) shown.add(name);
  }
  const knobs = await page.locator('#knobs [data-knob]').evaluateAll((all) => all.map((e) => e.dataset.knob));
  assert.ok(shown.size > 0);
  for (const name of shown) assert.ok(knobs.includes(name), `${name} is not open`);
  await page.getByRole('button', { name: 'Look at the front' }).click();
  const height = page.getByRole('slider', { name: 'Seat height, on the picture' });
  await height.focus();
  await page.keyboard.press('End');
  assert.equal(await height.getAttribute('aria-valuenow'), '480');
  assert.equal(await page.getByRole('textbox', { name: 'Seat height', exact: true }).inputValue(), '480');
  await page.keyboard.press('Enter');
  await page.getByRole('textbox', { name: 'Seat height, new value' }).fill('20 in');
  await page.keyboard.press('Enter');
  assert.match(await page.locator('.dimension-note').innerText(), /508 mm; it must be from 420 mm to 480 mm/);
  assert.deepEqual(faults, []);
  await context.close();
});
