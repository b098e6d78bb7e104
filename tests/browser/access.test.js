// Every state of the pages, looked at for what keeps somebody from reading or using it: at a desk by day, on a phone by night, in a narrow
// window and with letters twice as large.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { browse } from './harness.js';
import { faultsByAxe, faultsOfFile, faultsOfMarkup, focusUnseen, outside, smallTargets } from './looking.js';
import { places, stage, walk } from './states.js';

const desk = { width: 1280, height: 800 };
const phone = { width: 360, height: 780 };
/** A window of 1280 px at four times the size (WCAG 2.2, 1.4.10). */
const narrow = { width: 320, height: 640 };

/** `STATES='shelf|menu' node --test access.test.js` looks at these alone. */
const asked = new RegExp(process.env.STATES ?? '');

let browser;
let site;
before(async () => {
  [browser, site] = await Promise.all([browse(), stage()]);
});
after(async () => {
  await browser.close();
  await site.stop();
});

/** Lets a change of size, scheme or letters take effect: two frames, and a picture drawn for its frame. */
async function settled(room) {
  await room.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  await room.waitForFunction(() => {
    const [frame, drawing] = [document.querySelector('#picture'), document.querySelector('#picture > svg')];
    // A chair that cannot be built leaves the last picture as it is.
    return !drawing || document.querySelector('dialog[open], #banner:not([hidden])') || drawing.getAttribute('width') === String(Math.round(frame.getBoundingClientRect().width));
  });
}

/** What is found in a state, a line each. */
async function looked({ page, room }, { part, over, sized = true }) {
  const found = [];
  const note = (where, lines) => found.push(...lines.filter((line) => !(over && line.startsWith('covered'))).map((line) => `${where}: ${line}`));
  note('desk', await faultsByAxe(room, part));
  note('markup', await faultsOfMarkup(room));
  note('desk', await room.evaluate(focusUnseen));
  await page.setViewportSize(phone);
  await page.emulateMedia({ colorScheme: 'dark' });
  await settled(room);
  note('phone', await faultsByAxe(room, part));
  note('phone', await room.evaluate(smallTargets));
  note('phone', await room.evaluate(focusUnseen));
  await page.emulateMedia({ colorScheme: 'light' });
  if (sized) {
    await page.setViewportSize(narrow);
    await settled(room);
    note('narrow', await room.evaluate(outside));
    await page.setViewportSize(desk);
    await room.evaluate(() => (document.documentElement.style.fontSize = '187.5%'));
    await settled(room);
    note('letters twice as large', await room.evaluate(outside));
    note('letters twice as large', await room.evaluate(focusUnseen));
    await room.evaluate(() => (document.documentElement.style.fontSize = ''));
  }
  await page.setViewportSize(desk);
  await settled(room);
  return found;
}

for (const place of places) {
  test(`${place.name}: nothing keeps anybody from reading or using it`, async (run) => {
    await walk(browser, site.address, place, { viewport: desk, colorScheme: 'light', only: ({ name }) => asked.test(name) }, (at, state) =>
      run.test(state.name, async () => assert.equal((await looked(at, { ...state, sized: place.path !== '/host.html' && state.sized !== false })).join('\n'), '')),
    );
  });
}

/** Where the direction of writing may matter: lists, dialogs and forms; that each list fits in every language is tested with the languages. */
const SIDED = new Set(['first visit', 'menu', 'tab price', 'shelf', 'checked in', 'book', 'a size out of range']);

for (const place of places.filter(({ name }) => ['Workshop', 'setting up'].includes(name))) {
  test(`${place.name}, from right to left: the same`, async (run) => {
    await walk(browser, site.address, place, { viewport: phone, locale: 'ar', only: ({ name }) => SIDED.has(name) && asked.test(name) }, (at, { name, part }) =>
      run.test(name, async () => {
        const found = await faultsByAxe(at.room, part);
        found.push(...(await at.room.evaluate(smallTargets)));
        await at.page.setViewportSize(narrow);
        await settled(at.room);
        found.push(...(await at.room.evaluate(outside)));
        await at.page.setViewportSize(phone);
        assert.equal(found.join('\n'), '');
      }),
    );
  });
}

describe('packed pages', () => {
  for (const name of ['dist/index.html', 'dist/showroom.html', 'dist/setup.html', 'dist/crestrail.html', 'published/index.html', '../../www/sample/host.html']) {
    test(`${name} is sound HTML`, async () => assert.deepEqual(await faultsOfFile(fileURLToPath(new URL(`../out/${name}`, import.meta.url))), []));
  }
});
