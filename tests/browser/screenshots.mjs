// Takes the README's screenshots of the packed page: `npm --prefix tests/browser run screenshots` after a change that shows.
// They are WebP, which is a quarter of what the browser's own PNG takes.
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { browse, open, serve } from './harness.js';

const folder = fileURLToPath(new URL('../../www/pictures/', import.meta.url));

/** Name, page, window, what is done before; each in light and dark. */
const shots = [
  ['workshop-desk', '', { width: 1280, height: 800 }, async () => {}],
  ['checks-desk', '', { width: 1280, height: 800 }, (page) => showTab(page, 'findings')],
  ['showroom-phone', 'showroom.html', { width: 390, height: 844 }, async () => {}],
];

/** Every kind is drawn, no hint stands in the way, nothing moves. */
async function settle(page) {
  const hint = page.locator('.hint button').last();
  if (await hint.isVisible()) await hint.click();
  await page.waitForFunction(() => [...document.querySelectorAll('.kind-picture')].every((box) => box.querySelector('svg')), undefined, { timeout: 60_000 });
  await page.waitForTimeout(300);
}

async function showTab(page, name) {
  await page.locator(`#tab-${name}`).click();
  await page.locator(`#tab-${name}`).evaluate((tab) => tab.scrollIntoView({ block: 'start' }));
}

/** @param {Buffer} png @returns {Promise<Buffer>} */
async function webp(blank, png) {
  const address = await blank.evaluate(async (base64) => {
    const picture = await createImageBitmap(await (await fetch(`data:image/png;base64,${base64}`)).blob());
    const canvas = Object.assign(document.createElement('canvas'), { width: picture.width, height: picture.height });
    canvas.getContext('2d').drawImage(picture, 0, 0);
    return canvas.toDataURL('image/webp', 0.86);
  }, png.toString('base64'));
  return Buffer.from(address.split(',')[1], 'base64');
}

const [browser, server] = await Promise.all([browse(), serve()]);
try {
  await mkdir(folder, { recursive: true });
  const blank = await browser.newPage();
  for (const [name, path, viewport, act] of shots) {
    for (const colorScheme of ['light', 'dark']) {
      const { page, context } = await open(browser, server.address + path, { viewport, colorScheme });
      await settle(page);
      await act(page);
      const file = `${name}-${colorScheme}.webp`;
      const bytes = await webp(blank, await page.screenshot());
      await writeFile(join(folder, file), bytes);
      console.log(`www/pictures/${file}: ${Math.round(bytes.length / 1000)} kB`);
      await context.close();
    }
  }
} finally {
  await browser.close();
  await server.stop();
}
