// The page as somebody at it knows it: by what its controls are called.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { savedFile } from './engines.js';
import { open } from './harness.js';

/** Opens the page, runs the test, and demands that nothing went wrong unseen. `here` as `together` gives it. */
export async function atDesk(here, viewport, run) {
  const { page, context, faults } = await open(here.browser, here.server.address, { viewport });
  await run(new Desk(page), page);
  assert.deepEqual(faults, []);
  await context.close();
}

/** The page's controls and what it shows. */
export class Desk {
  /** @param {import('playwright-core').Page} page */
  constructor(page) {
    this.page = page;
    this.drawing = page.locator('#picture > svg');
    this.picture = page.locator('#picture');
    // Without the line for screen readers below the cells, which follows when the knobs rest.
    this.titleBlock = page.getByRole('contentinfo', { name: 'Overall sizes and price' }).locator('dl');
    this.rows = page.getByRole('tabpanel', { name: 'Cutting list' }).locator('tbody tr');
    this.notices = page.locator('#notices .notice');
    this.banner = page.locator('#banner');
  }

  /** The radio button of a kind of chair. @param {string} label */
  kind(label) {
    return this.page.getByRole('radio', { name: label, exact: true });
  }

  /** A knob's slider. @param {string} label */
  slider(label) {
    return this.page.getByRole('slider', { name: label, exact: true });
  }

  /** A knob's typed field. @param {string} label */
  field(label) {
    return this.page.getByRole('textbox', { name: label, exact: true });
  }

  /** Types a value into a knob's field, as with the keyboard. @param {string} label @param {string} text */
  async type(label, text) {
    await this.field(label).fill(text);
    await this.field(label).press('Enter');
  }

  /** All that tells one design from another on screen, once it is that of now; the picture as a hash, to be compared. */
  async shown() {
    await this.page.locator('#summary[aria-busy="false"]').waitFor();
    const [sizes, svg] = await Promise.all([this.titleBlock.innerText(), this.drawing.innerHTML()]);
    return { sizes, picture: createHash('sha256').update(svg).digest('hex') };
  }

  /** Does something, and waits until sizes or price have changed on screen. @param {() => Promise<unknown>} act */
  async changing(act) {
    const before = await this.titleBlock.innerText();
    await act();
    await this.page.waitForFunction(
      (was) => /** @type {HTMLElement} */ (document.querySelector('#summary dl')).innerText !== was,
      before,
    );
  }

  /** Chooses from the menu. @param {string} item */
  async menu(item) {
    await this.page.getByRole('button', { name: 'Design', exact: true }).click();
    await this.page.getByRole('button', { name: item, exact: true }).click();
  }

  /** Does something that saves a file, and reads it. @param {() => Promise<unknown>} act */
  async saved(act) {
    const [download] = await Promise.all([savedFile(this.page), act()]);
    return { name: download.suggestedFilename(), text: await readFile(await download.path(), 'utf8') };
  }

  /** Opens a file of the given text from the menu. @param {string} text @param {string} [name] */
  async openFile(text, name = 'design.json') {
    const [chooser] = await Promise.all([this.page.waitForEvent('filechooser'), this.menu('Open a design…')]);
    await chooser.setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
  }

  /** Waits until the address holds a part of a link, such as a knob's value. @param {string} part */
  async link(part) {
    await this.page.waitForFunction((wanted) => location.hash.includes(wanted), part);
    return this.page.url();
  }
}
