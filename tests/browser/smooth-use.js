// A use of the whole Workshop, habit by habit, as somebody at it would go about.
import { Desk } from './desk.js';
import { ready } from './harness.js';

const tabs = ['Cutting list', 'Joints', 'How it goes together', 'Price and work', 'Sheets', 'Fit', 'Checks and cautions'];

/** Each part of the use by name. @type {Record<string, (desk: Desk, page: import('playwright-core').Page) => Promise<unknown>>} */
export const habits = {
  async sliders(desk, page) {
    for (const label of ['Seat height', 'Width in front', 'Height of the back']) {
      await desk.slider(label).focus();
      for (let i = 0; i < 8; i += 1) await page.keyboard.press(i < 5 ? 'ArrowRight' : 'ArrowLeft', { delay: 30 });
    }
    await drag(page, desk.slider('Seat height'), 90, 0);
  },
  async typing(desk) {
    await desk.type('Seat height', '441');
    await desk.type('Seat height', '430');
  },
  async picture(desk, page) {
    await drag(page, desk.picture, 160, 40);
    for (const look of ['front', 'side', 'apart', 'apart', 'corner']) await press(page, `[data-look="${look}"]`);
  },
  async dimensions(desk, page) {
    await drag(page, page.getByRole('slider', { name: 'Seat height, on the picture', exact: true }), 0, -30);
    await drag(page, page.getByRole('slider', { name: 'Width in front, on the picture', exact: true }), 25, 8);
  },
  async kinds(desk) {
    for (const kind of ['Armchair', 'Bench for three', 'Stool', 'Side chair']) await desk.changing(() => desk.kind(kind).click({ force: true }));
  },
  async tabs(desk, page) {
    for (const name of tabs) {
      await page.getByRole('tab', { name }).click();
      await page.waitForTimeout(300);
      await page.locator('#lists [role="tabpanel"]:not([hidden]) details').first().evaluate((details) => details.querySelector('summary').click()).catch(() => {});
      await desk.slider('Seat height').focus();
      for (let i = 0; i < 4; i += 1) await page.keyboard.press(i < 2 ? 'ArrowRight' : 'ArrowLeft', { delay: 30 });
    }
    await page.getByRole('tab', { name: tabs[0] }).click();
  },
  async shelf(desk, page) {
    const shelf = page.getByRole('dialog', { name: 'Shelf', exact: true });
    await desk.menu('Put it on the shelf');
    await shelf.locator('.shelf-picture svg').first().waitFor();
    await page.keyboard.press('Escape');
    await desk.changing(() => desk.kind('Armchair').click({ force: true }));
    await desk.menu('Put it on the shelf');
    await shelf.locator('.shelf-picture svg').nth(1).waitFor();
    for (const box of (await shelf.getByRole('checkbox', { name: 'Compare' }).all()).slice(0, 2)) await box.check();
    await shelf.getByRole('button', { name: /^Compare/ }).click();
    await page.locator('.compare-picture svg').nth(1).waitFor();
    await page.keyboard.press('Escape');
    await desk.changing(() => desk.kind('Side chair').click({ force: true }));
  },
  async order(desk, page) {
    await page.getByRole('tab', { name: 'Price and work' }).click();
    const panel = page.getByRole('tabpanel', { name: 'Price and work' });
    await panel.getByRole('button', { name: 'Put this chair into the order' }).click();
    await panel.locator('.order:not(.stale) .order-total').first().waitFor();
    await panel.getByText('Price by number of chairs').click();
    await panel.getByText('How to saw it').click();
    await page.locator('.board-region svg').first().waitFor();
    await page.waitForTimeout(2000);
    await panel.getByText('How to saw it').click();
    await panel.getByRole('button', { name: 'Empty the order' }).click();
  },
  async sheets(desk, page) {
    await page.getByRole('tab', { name: 'Sheets' }).click();
    await page.locator('.sheet-row').first().waitFor();
    await desk.saved(() => page.getByRole('button', { name: 'Save the bench book, PDF' }).click());
    await page.getByRole('tab', { name: 'How it goes together' }).click();
    const work = page.locator('.bench-steps');
    if (!(await work.evaluate((details) => details.open))) await work.locator('summary').first().click();
    await page.locator('.work-picture svg').first().waitFor();
    await page.waitForTimeout(500);
  },
  async exports(desk, page) {
    for (const button of (await page.locator('#exports > .export-buttons .plain-button').all()).slice(0, 4)) await desk.saved(() => button.click());
    await page.locator('.solids > summary').click();
    await desk.saved(() => page.locator('.solids .export-buttons button').first().click());
    await page.locator('.solids > summary').click();
  },
  async undo(desk, page) {
    for (let i = 0; i < 4; i += 1) await page.getByRole('button', { name: 'Undo', exact: true }).first().click({ delay: 30 });
    for (let i = 0; i < 4; i += 1) await page.getByRole('button', { name: 'Redo', exact: true }).click({ delay: 30 });
  },
  async dark(desk, page) {
    for (const scheme of ['dark', 'light']) {
      await page.getByRole('button', { name: 'Design', exact: true }).click();
      await page.locator(`#menu [name="scheme"][value="${scheme}"]`).click({ force: true });
      await page.keyboard.press('Escape');
      await page.waitForTimeout(200);
    }
  },
  async language(desk, page) {
    for (const language of ['de', 'en']) {
      await page.locator('#menu-button').click();
      await Promise.all([page.waitForEvent('load'), page.locator('#language').selectOption(language)]);
      await ready(page);
    }
  },
};

/** Drags from the middle of something. @param {import('playwright-core').Page} page @param {import('playwright-core').Locator} locator @param {number} dx @param {number} dy */
export async function drag(page, locator, dx, dy) {
  await locator.scrollIntoViewIfNeeded();
  const { x, y, width, height } = await locator.boundingBox();
  await page.mouse.move(x + width / 2, y + height / 2);
  await page.mouse.down();
  await page.mouse.move(x + width / 2 + dx, y + height / 2 + dy, { steps: 20 });
  await page.mouse.up();
}

/** @param {import('playwright-core').Page} page @param {string} selector */
async function press(page, selector) {
  await page.locator(selector).click();
  await page.waitForTimeout(500);
}
