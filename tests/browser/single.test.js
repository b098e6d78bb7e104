// The one self-contained file, opened from a disk.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { Desk } from './desk.js';
import { browse, open, single, sizes } from './harness.js';

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
