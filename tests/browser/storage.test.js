// What the browser keeps: after a tab that was killed, without room, without storage, with a clock that is wrong, spoilt, and from
// earlier versions.
import assert from 'node:assert/strict';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, test } from 'node:test';
import { Desk } from './desk.js';
import { lacking, withoutStorage } from './engines.js';
import { open, ready, together } from './harness.js';

const KNOB = 'Seat height';
const earlier = fileURLToPath(new URL('../data/earlier/', import.meta.url));
const here = together();

const stored = (page, key) => page.evaluate((name) => localStorage.getItem(name), key);

/** Opens the page with things in its storage. @param {Record<string, string>} items by key */
async function openWith(items, more = {}) {
  const context = await here.browser.newContext({ viewport: { width: 1200, height: 900 }, locale: 'en-GB', serviceWorkers: 'block' });
  const page = await context.newPage();
  // The icon is of the page's origin, and runs nothing.
  await page.goto(`${here.server.address}icons/icon.svg`);
  await page.evaluate((all) => Object.entries(all).forEach(([key, text]) => localStorage.setItem(key, text)), items);
  if (more.before) await more.before(page);
  await page.goto(here.server.address);
  await ready(page);
  return { page, context, desk: new Desk(page) };
}

test('a tab that is killed comes back with what was set', { skip: lacking('cdp') }, async () => {
  const { page, context } = await open(here.browser, here.server.address);
  const desk = new Desk(page);
  await desk.changing(() => desk.type(KNOB, '463'));
  await desk.link('seat_height=463');
  const killer = await context.newCDPSession(page);
  const crashed = page.waitForEvent('crash');
  killer.send('Page.crash').catch(() => {});
  await crashed;
  const again = await context.newPage();
  await again.goto(here.server.address);
  await ready(again);
  assert.equal(await new Desk(again).field(KNOB).inputValue(), '463');
  await context.close();
});

test('without room it says so, goes on, and what was kept before stays whole', async () => {
  const { page, context, desk } = await openWith({});
  await desk.changing(() => desk.type(KNOB, '463'));
  await desk.link('seat_height=463');
  await page.waitForFunction(() => localStorage.getItem('crestrail/design')?.includes('463'));
  const before = await stored(page, 'crestrail/design');
  await page.evaluate(() => {
    for (let size = 1 << 20; size >= 1; ) {
      try {
        localStorage.setItem(`filler-${localStorage.length}`, 'x'.repeat(size));
      } catch {
        size >>= 1;
      }
    }
  });
  await page.getByRole('textbox', { name: 'Name of this design' }).fill('A name that needs more room than there is');
  await desk.changing(() => desk.type(KNOB, '471'));
  await desk.notices.filter({ hasText: 'does not let the page keep the design' }).waitFor();
  // What is kept is whole: as it was, or a later one that took no more room.
  const kept = JSON.parse((await stored(page, 'crestrail/design')) ?? '');
  assert.ok([JSON.parse(before).knobs.seat_height, 471].includes(kept.knobs.seat_height));
  await desk.openFile(readFileSync(join(earlier, 'shop-2-boards.json'), 'utf8'), 'shop.json');
  await desk.notices.filter({ hasText: /until you leave the page/ }).waitFor();
  await context.close();
});

test('without storage everything works but keeping, and that is said', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'crestrail-private-'));
  const context = await withoutStorage(folder, { viewport: { width: 1200, height: 900 }, locale: 'en-GB' });
  const page = await context.newPage();
  await page.goto(here.server.address);
  await ready(page);
  assert.equal(await page.evaluate(() => {
    try {
      return localStorage.length;
    } catch (why) {
      return why.name;
    }
  }), 'SecurityError');
  const desk = new Desk(page);
  await desk.changing(() => desk.type(KNOB, '463'));
  await desk.notices.filter({ hasText: 'does not let the page keep the design. Save it to a file' }).waitFor();
  const { text } = await desk.saved(() => desk.menu('Save the design'));
  assert.equal(JSON.parse(text).knobs.seat_height, 463);
  await context.close();
  rmSync(folder, { recursive: true, force: true });
});

for (const [name, day] of [['far back', '1985-02-03T04:05:06Z'], ['far ahead', '2099-02-03T04:05:06Z']]) {
  test(`with a clock set ${name} designs are kept, and what is spoilt does not push aside what was set aside before`, { skip: lacking('cdp') }, async () => {
    const spoilt = { 'crestrail/design': '{"crestrail":"design/1","kn' };
    const { page, context, desk } = await openWith(spoilt, { before: (it) => it.clock.setFixedTime(new Date(day)) });
    await desk.notices.filter({ hasText: 'could not be read' }).waitFor();
    await page.evaluate(() => localStorage.setItem('crestrail/design', '{"spoilt":"again"'));
    await page.goto('about:blank');
    await page.goto(here.server.address);
    await ready(page);
    await desk.notices.filter({ hasText: 'could not be read' }).waitFor();
    const aside = await page.evaluate(() => Object.entries(localStorage).filter(([key]) => key.includes('-unread-')).map(([, text]) => text));
    assert.deepEqual(aside.sort(), [spoilt['crestrail/design'], '{"spoilt":"again"'].sort());
    await desk.changing(() => desk.type(KNOB, '463'));
    await desk.link('seat_height=463');
    await page.goto('about:blank');
    await page.goto(here.server.address);
    await ready(page);
    assert.equal(await desk.field(KNOB).inputValue(), '463');
    await context.close();
  });
}

test('each store that is spoilt is set aside and offered as a file', async () => {
  const names = ['design', 'shop', 'showroom', 'order', 'shelf'];
  const spoilt = Object.fromEntries(names.map((name) => [`crestrail/${name}`, `{"crestrail":"${name}/1","cut of ${name}`]));
  const { page, context, desk } = await openWith(spoilt);
  await page.getByRole('tab', { name: 'Price' }).click();
  await desk.titleBlock.click();
  await page.keyboard.press('k');
  await page.getByRole('dialog', { name: 'Shelf', exact: true }).waitFor();
  await page.keyboard.press('Escape');
  const offers = desk.notices.filter({ hasText: 'set aside' });
  await offers.nth(names.length - 1).waitFor();
  const texts = [];
  for (let left = names.length; left > 0; left--) texts.push((await desk.saved(() => offers.first().getByRole('button', { name: 'Save what was kept' }).click())).text);
  assert.deepEqual(texts.sort(), Object.values(spoilt).sort());
  await context.close();
});

describe('of earlier versions', () => {
  const files = readdirSync(earlier);
  const text = (name) => readFileSync(join(earlier, name), 'utf8');

  test('what the browser kept opens without a word of complaint', async () => {
    const items = { 'crestrail/design': 'design-1-38-knobs.json', 'crestrail/shop': 'shop-1.json', 'crestrail/showroom': 'showroom-1.json', 'crestrail/order': 'order-1.json', 'crestrail/shelf': 'shelf-1.json' };
    const { page, context, desk } = await openWith(Object.fromEntries(Object.entries(items).map(([key, name]) => [key, text(name)])));
    assert.equal(await desk.field(KNOB).inputValue(), '455');
    await page.getByRole('tab', { name: 'Price and work' }).click();
    const order = page.getByRole('tabpanel', { name: 'Price and work' }).getByRole('list', { name: 'The order' });
    await order.getByLabel('How many of Side chair').waitFor();
    assert.equal(await order.getByLabel('How many of Side chair').inputValue(), '6');
    await desk.titleBlock.click();
    await page.keyboard.press('k');
    const shelf = page.getByRole('dialog', { name: 'Shelf', exact: true });
    // The key put the chair shown in front of what the shelf had.
    const cards = shelf.locator('.shelf-card');
    await cards.nth(1).waitFor();
    assert.equal(await cards.nth(1).getByRole('textbox').inputValue(), 'Kitchen');
    assert.equal(await desk.notices.filter({ hasText: 'could not be read' }).count(), 0);
    await context.close();
  });

  test('every file opens from the menu', { skip: lacking('chooser') }, async () => {
    const { page, context, desk } = await openWith({});
    const told = { design: /Opened “Kitchen”/, order: /Opened the order/, quote: /Opened the order/, shop: /prices are now those of/, showroom: /Showroom is now that of/, shelf: /1 design was added to the shelf/ };
    for (const name of files.filter((file) => /\.(json|html)$/.test(file))) {
      await desk.openFile(text(name), name);
      // What a customer was told is checked in first.
      if (text(name).includes('"told"')) {
        await page.locator('dialog[open]').waitFor();
        await page.locator('dialog[open]').press('Escape');
        await page.locator('dialog[open]').waitFor({ state: 'detached' });
        continue;
      }
      const notice = desk.notices.filter({ hasText: told[/^[a-z]+/.exec(name)[0]] });
      await notice.first().waitFor({ timeout: 10_000 }).catch(async () => assert.fail(`${name}: ${await desk.notices.allInnerTexts()}`));
      assert.equal(await desk.notices.filter({ hasText: 'Could not open' }).count(), 0, name);
      if (/^design/.test(name)) assert.equal(/saved by an earlier version/.test(await notice.first().innerText()), !name.includes('88'), name);
      for (const button of await desk.notices.getByRole('button', { name: /Dismiss|Close/ }).all()) await button.click();
    }
    await context.close();
  });

  test('links open', async () => {
    for (const link of text('links.txt').trim().split('\n')) {
      const { page, context } = await open(here.browser, `${here.server.address}#${link}`);
      assert.equal(await new Desk(page).field(KNOB).inputValue(), '455');
      await context.close();
    }
  });
});
