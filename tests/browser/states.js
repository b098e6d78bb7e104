// Every state that the pages can be brought into, by name: for the tests that look at all of them, and for pictures of them.
// A state is reached from its page as it first opens; `words` are those of the page's language, so that any language will do.
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { catalogueOf, english } from './catalogue.js';
import { ready, single } from './harness.js';
import { host } from './site.js';

const folder = (path) => fileURLToPath(new URL(path, import.meta.url));
const shop = JSON.parse(await readFile(folder('../../core/chair/data/shop.json'), 'utf8'));
const showroom = JSON.parse(await readFile(folder('../../core/chair/data/showroom.json'), 'utf8'));

/** How long a state may take to be reached on a busy machine, ms. */
const PATIENCE = 60_000;

/**
 * @typedef {object} At where a state is brought about
 * @property {import('playwright-core').Page} page
 * @property {import('playwright-core').Page | import('playwright-core').Frame} room the page itself, or the frame in it
 * @property {Record<string, any>} words of the page's language, by key
 */
/**
 * @typedef {object} State
 * @property {string} name
 * @property {string} [part] the part of the page that is new in it; the whole page without it
 * @property {boolean} [fresh] whether it needs the page as it first opens: what came before may have changed the chair
 * @property {boolean} [sized] whether it is looked at in narrow windows too: the last picture of a chair that cannot be built keeps its size
 * @property {boolean} [over] whether something lies over the page until Escape puts it away
 * @property {(at: At) => Promise<unknown>} reach
 */
/** @typedef {{ name: string, path: string, states: State[] }} Place a page and its states, in an order in which each can follow the one before */

// ---- How a page is handled ----

const button = ({ room }, name) => room.getByRole('button', { name, exact: true });
const settled = ({ room }) => room.locator('#summary[aria-busy="false"], #label[aria-busy="false"]').first().waitFor();

/** Chooses from the menu. @param {At} at @param {string} word */
async function menu(at, word) {
  await at.page.locator('#menu-button').click();
  await at.page.locator('#menu').getByRole('button', { name: at.words[word], exact: true }).click();
}

/** Opens a file as from the menu. @param {At} at @param {string} name @param {unknown} content */
async function file({ page }, name, content) {
  const text = typeof content === 'string' ? content : JSON.stringify(content);
  await page.locator('#head > input[type="file"]').setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
}

/** Shows a tab with everything in it unfolded. @param {string} key */
const tab = (key) => async (/** @type {At} */ { page }) => {
  await page.locator(`#tab-${key}`).click();
  // What takes long to work out has a state of its own.
  await page.evaluate((of) => document.querySelectorAll(`#list-${of} details:not(.moves-group, .sawing-group)`).forEach((more) => (more.open = true)), key);
  await page.waitForFunction((of) => ![...document.querySelectorAll(`#list-${of} progress`)].some((bar) => bar.checkVisibility({ visibilityProperty: true })), key);
};

/** Takes a kind of chair. @param {string} family */
const kind = (family) => async (/** @type {At} */ at) => {
  await at.page.locator(`#kinds input[value="${family}"]`).check({ force: true });
  await at.page.waitForFunction((wanted) => location.hash.includes(wanted) || wanted === 'side_chair', family);
  await settled(at);
};

/** Types into the field of a knob. @param {At} at @param {string} knob @param {string} text */
async function type({ room }, knob, text) {
  const field = room.locator(`#knob-${knob}`);
  await field.evaluate((input) => (input.closest('details') ? (input.closest('details').open = true) : undefined));
  await field.fill(text);
  await field.press('Enter');
}

/** Opens the dialog of a key pressed where nobody types. @param {string} pressed @param {string} name */
const byKey = (pressed, name) => async (/** @type {At} */ { page, room }) => {
  await room.evaluate(() => document.activeElement?.blur());
  await page.keyboard.press(pressed);
  await room.locator(`.${name}-dialog[open]`).waitFor();
};

/** Puts the chair shown on the shelf, and another kind, and opens the shelf with both chosen. @param {At} at */
async function shelf(at) {
  const { page } = at;
  await byKey('k', 'shelf')(at);
  await page.locator('.shelf-card .shelf-picture svg').first().waitFor();
  await page.locator('.shelf-dialog .text-button[data-act^="shelf_double"]').first().click();
  await page.locator('.shelf-card').nth(1).locator('.shelf-picture svg').waitFor();
  for (const box of await page.locator('.shelf-card .check input').all()) await box.check();
}

/** An order of two designs, priced. @param {At} at */
async function order(at) {
  const { page } = at;
  await page.locator('#tab-price').click();
  for (const family of ['side_chair', 'armchair']) {
    await kind(family)(at);
    const before = await page.locator('.order-line').count();
    await page.locator('#quote-quantity').fill('6');
    await page.locator('#quote-quantity').press('Enter');
    await page.locator('.order-line').nth(before).waitFor();
  }
  await page.waitForFunction(() => {
    const amounts = [...document.querySelectorAll('.order:not(.stale) .order-amount')];
    return amounts.length === 2 && amounts.every((amount) => amount.textContent?.trim());
  });
}

/** Shows the chair of a link. @param {At} at @param {string} link without its checksum */
async function follow(at, link) {
  const before = await at.room.evaluate(() => location.hash);
  await at.room.evaluate((hash) => void (location.hash = hash), checked(link));
  await at.room.waitForFunction((was) => location.hash !== was && document.querySelector('#summary[aria-busy="false"]'), before);
}

/** A chair in the order and on screen that cannot be built any more: its laths became thinner than any cutter of the book. @param {At} at */
async function refused(at) {
  await follow(at, 'design/1;family=armchair;back=laths;fill_thickness=8');
  await at.page.waitForFunction(() => document.querySelector('#picture').getAttribute('aria-label').includes('Armchair'));
  await at.page.locator('#tab-price').click();
  await at.page.locator('#quote-quantity').press('Enter');
  await at.page.locator('.order-line').first().waitFor();
  await file(at, 'shop.json', { ...shop, cutters: [8] });
  await at.page.locator('#banner:not([hidden])').waitFor();
  await at.page.waitForFunction(() => !document.querySelector('#banner .clash-remedy[disabled]'));
}

/** Checks in what a customer sent. @param {At} at @param {string} text */
async function checkIn(at, text) {
  await menu(at, 'menu_checkin');
  await at.page.locator('#checkin-text').fill(text);
  await at.page.locator('#checkin button[type="submit"]').click();
  await at.page.locator('#checkin .checked-line, #checkin [role="alert"]').first().waitFor();
}

/** An order as a customer sends it, of the chair shown and with another price. @param {At} at */
async function sent({ page }) {
  const knobs = JSON.parse(await page.evaluate(() => localStorage.getItem('crestrail/design'))).knobs;
  const told = { offer: 'Kitchen chair', label: { way: 'shown', currency: 'EUR', minor: 10_000 } };
  return JSON.stringify({ crestrail: 'order/2', name: 'Kitchen', customer: 'Ada', lines: [{ name: 'Kitchen chair', quantity: 4, knobs, told }] });
}

// ---- The states ----

/** The kinds of chair, by their name in files. */
const KINDS = ['armchair', 'stool', 'counter_chair', 'bar_chair', 'bench_two', 'bench_three', 'child_chair', 'side_chair'];

/** @type {State[]} */
const workshop = [
  { name: 'first visit', reach: settled },
  { name: 'menu', part: '#menu', reach: ({ page }) => page.locator('#menu-button').click() },
  { name: 'all knobs, with what one moves', part: '.knob-column', reach: async ({ page }) => {
    await page.evaluate(() => document.querySelectorAll('#knobs details').forEach((group) => (group.open = true)));
    await page.locator('[data-knob="seat_height"] .knob-ask').click();
    await page.locator('[data-knob="seat_height"] .knob-figure svg').waitFor();
  } },
  { name: 'a size out of range', part: '.knob-column', reach: async (at) => {
    await type(at, 'seat_height', '9000');
    await at.page.locator('[data-knob="seat_height"] .knob-problem:not([hidden])').waitFor();
  } },
  ...['cutting', 'joints', 'assembly', 'price', 'sheets', 'fit', 'findings'].map((key) => ({ name: `tab ${key}`, part: '#lists', reach: tab(key) })),
  { name: 'exports, with single parts', part: '#exports', reach: ({ page }) => page.evaluate(() => document.querySelectorAll('#exports details').forEach((more) => (more.open = true))) },
  { name: 'apart', part: '.stage', reach: async ({ page }) => {
    await page.locator('[data-look="apart"]').click();
    await page.waitForFunction(() => Number(document.querySelectorAll('#view-rulers input')[1]?.value) === 100);
  } },
  { name: 'shares in the picture', part: '.stage', reach: async (at) => {
    await at.page.locator('[data-look="front"]').click();
    await at.page.locator('#tint-buttons button').nth(1).click();
  } },
  { name: 'keys', part: '.keys-dialog', reach: byKey('?', 'keys') },
  { name: 'shelf', part: '.shelf-dialog', reach: shelf },
  { name: 'side by side', part: '.compare-dialog', reach: async (at) => {
    await byKey('l', 'shelf')(at);
    if ((await at.page.locator('.shelf-card').count()) < 2) {
      await close(at);
      await shelf(at);
    }
    for (const box of await at.page.locator('.shelf-card .check input').all()) await box.check();
    await at.page.locator('.shelf-dialog .shelf-acts .plain-button').first().click();
    await at.page.locator('.compare-picture svg').nth(1).waitFor();
    await at.page.evaluate(() => (document.querySelector('.compare-same').open = true));
  } },
  { name: 'surprise refused', part: '.surprise-dialog', reach: async (at) => {
    await menu(at, 'menu_surprise');
    await at.page.locator('#surprise-number').fill('12.5x');
    await at.page.locator('.surprise-dialog button[type="submit"]').click();
  } },
  { name: 'check in', part: '#checkin', reach: (at) => menu(at, 'menu_checkin') },
  { name: 'checked in', part: '#checkin', reach: async (at) => checkIn(at, await sent(at)) },
  { name: 'check in refused', part: '#checkin', reach: (at) => checkIn(at, 'Dear maker, I want a chair.') },
  { name: 'notices', part: '#notices', over: true, reach: async (at) => {
    await menu(at, 'menu_link');
    await file(at, 'torn.json', '{"torn": ');
    await at.page.locator('#notices .notice-stays').waitFor();
  } },
  { name: 'quote refused', part: '#list-price .quote', reach: async ({ page }) => {
    await page.locator('#tab-price').click();
    await page.locator('#quote-number').fill('');
    await page.locator('.quote form button[type="submit"].strong-button').last().click();
  } },
  { name: 'order of two designs', part: '#list-price .quote', reach: async (at) => {
    await order(at);
    await at.page.evaluate(() => (document.querySelector('.quote details').open = true));
    await at.page.locator('.quote details tbody').nth(1).waitFor();
  } },
  { name: 'what moves the price, stopped', part: '.moves-group', reach: async ({ page, words }) => {
    await page.locator('#tab-price').click();
    await page.evaluate(() => (document.querySelector('.moves-group').open = true));
    await page.locator('.moves-group').getByRole('button', { name: words.plan_stop }).click();
  } },
  { name: 'timber plan', part: '.sawing-group', reach: async ({ page }) => {
    await page.locator('#tab-price').click();
    await page.evaluate(() => (document.querySelector('.sawing-group').open = true));
    await page.locator('.sawing-group .board').first().waitFor();
    await page.waitForFunction(() => [...document.querySelectorAll('.sawing-group progress')].every((bar) => !bar.checkVisibility({ visibilityProperty: true })));
  } },
  { name: 'in inches', part: '.work', fresh: true, reach: async ({ page }) => {
    await page.locator('#menu-button').click();
    await page.locator('[name="lengths"][value="in"]').check({ force: true });
    await page.keyboard.press('Escape');
  } },
  { name: 'going together', part: '.stage', fresh: true, reach: async ({ page, words }) => {
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await page.getByRole('button', { name: words.play, exact: true }).click();
    await page.locator('.dimension-note').waitFor();
  } },
  ...KINDS.map((family, i) => ({ name: `kind ${family}`, part: '.work', fresh: i === 0, reach: async (at) => {
    await kind(family)(at);
    await close(at);
  } })),
  { name: 'findings of a weak chair', part: '#lists', reach: async (at) => {
    await follow(at, 'design/1;rail_thickness=18;rail_width=40;rake=18;seat_height=520');
    await tab('findings')(at);
    await at.page.locator('#list-findings [data-verdict="fails"]').first().waitFor();
    await close(at);
  } },
  { name: 'chair and order that cannot be built', fresh: true, over: true, sized: false, reach: refused },
];

/** @type {State[]} */
const setup = [
  { name: 'book', reach: async () => {} },
  { name: 'book refused', part: '#book', reach: async ({ page }) => {
    await page.locator('#book .strong-button').first().click();
    await page.locator('#book [role="alert"]').waitFor();
  } },
  { name: 'room and publishing', reach: async ({ page }) => {
    await page.locator('#book-name').fill('Ashdown Bench (invented)');
    await page.locator('#timber-ash_european').fill('1437');
    await page.locator('#book .strong-button').first().click();
    await page.locator('#room:not([hidden])').waitFor();
    await page.locator('#room-contact-mail').fill('ashdown@bench.example');
    await page.locator('#room button').filter({ hasNotText: /^\s*$/ }).last().click();
    await page.locator('#publish:not([hidden])').waitFor();
  } },
];

/** @type {State[]} */
const rooms = [
  { name: 'first visit', reach: settled },
  { name: 'all sizes, with what one is', part: '.knob-column', reach: async ({ room }) => {
    await room.locator('[data-knob="seat_height"] .knob-ask').first().click();
    await room.evaluate(() => document.querySelectorAll('details').forEach((more) => (more.open = true)));
  } },
  { name: 'a size out of range', part: '.knob-column', reach: (at) => type(at, 'seat_height', '9000') },
  { name: 'asking for a quote', part: '#ask', reach: async ({ room }) => {
    await room.locator('.ask-button').click();
    await room.locator('#ask[open]').waitFor();
    await room.waitForFunction(() => document.querySelector('#ask-words').value !== '');
  } },
  { name: 'keys', part: '.keys-dialog', reach: byKey('?', 'keys') },
  { name: 'surprise', part: '.surprise-dialog', reach: async ({ room, words }) => {
    await room.getByRole('button', { name: words.menu_surprise, exact: true }).click();
    await room.locator('.surprise-dialog[open]').waitFor();
  } },
  { name: 'bar chair', part: '.work', reach: async (at) => {
    await at.room.locator('#kinds input').nth(3).check({ force: true });
    await settled(at);
  } },
  { name: 'link to a chair not on offer', part: '#notices', over: true, reach: async ({ room }) => {
    await room.evaluate((hash) => void (location.hash = hash), checked('design/1;family=stool;rail_width=70'));
    await room.locator('#notices .notice').first().waitFor();
  } },
];

/** @type {State[]} */
const broken = [{ name: 'showroom.json that cannot be read', reach: ({ page }) => page.locator('html[data-fault]').waitFor() }];

/** The text of a link with its checksum, FNV-1a of 32 bits. @param {string} text */
export function checked(text) {
  let hash = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  return `${text};check=${hash.toString(16).padStart(8, '0')}`;
}

/**
 * The pages with their states. `path` begins at the site of `stage`, but for the single file.
 * @type {Place[]}
 */
export const places = [
  { name: 'Workshop', path: '/bench/index.html', states: workshop },
  { name: 'setting up', path: '/bench/setup.html', states: setup },
  { name: 'Showroom', path: '/chairs/', states: rooms },
  { name: 'broken Showroom', path: '/broken/', states: broken },
  { name: 'page of a maker’s own', path: '/host.html', states: [rooms[0], rooms[3]].map((state) => ({ ...state, part: undefined })) },
  { name: 'single file', path: single, states: [workshop[0], { name: 'all lists', part: '#lists', reach: tab('price') }] },
];

/** A site with everything that is packed and published on it: `address`, and `stop`. */
export async function stage() {
  const published = folder('../out/published/');
  const site = await host({ '/bench/': folder('../out/dist/'), '/chairs/': published, '/broken/': published, '/host.html': folder('../../www/sample/host.html') });
  site.pages.set('/broken/showroom.json', JSON.stringify({ ...showroom, crestrail: 'showroom/7' }));
  return site;
}

/** Closes what lies over a page. @param {At} at */
async function close({ room }) {
  await room.evaluate(() => {
    for (const dialog of document.querySelectorAll('dialog[open]')) dialog.close();
    for (const open of document.querySelectorAll('[popover]:popover-open')) open.hidePopover();
    for (const shut of document.querySelectorAll('#notices .close-button')) shut.click();
  });
}

/**
 * Goes through the states of a place and hands each over.
 * @param {import('playwright-core').Browser} browser @param {string} address of the stage @param {Place} place
 * @param {import('playwright-core').BrowserContextOptions & { only?: (state: State) => boolean }} options
 * @param {(at: At, state: State) => Promise<unknown>} look
 */
export async function walk(browser, address, { path, states }, { only = () => true, ...options }, look) {
  const code = String(options.locale ?? 'en').slice(0, 2);
  const words = code === 'en' ? english : catalogueOf(code);
  const url = path.startsWith('/') ? address + path : path;
  /** @type {At | undefined} */
  let at;
  for (const state of states) {
    if (!only(state)) continue;
    if (state.fresh) await at?.page.context().close();
    if (state.fresh || !at) at = { ...(await fresh(browser, url, options)), words };
    await close(at);
    await state.reach(at);
    await look(at, state);
  }
  await at?.page.context().close();
}

/** @param {import('playwright-core').Browser} browser @param {string} url @param {import('playwright-core').BrowserContextOptions} options */
async function fresh(browser, url, options) {
  const context = await browser.newContext({ serviceWorkers: 'block', locale: 'en-GB', ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(PATIENCE);
  await page.goto(url);
  if (url.endsWith('/broken/')) return { page, room: page };
  if (url.endsWith('setup.html')) return page.locator('html[data-ready]').waitFor().then(() => ({ page, room: page }));
  if (!url.endsWith('host.html')) return ready(page).then(() => ({ page, room: page }));
  const frame = await page.locator('crestrail-chair').evaluateHandle((chair) => chair.shadowRoot.querySelector('iframe'));
  const room = await frame.asElement().contentFrame();
  await room.locator('html[data-ready]').waitFor();
  return { page, room };
}
