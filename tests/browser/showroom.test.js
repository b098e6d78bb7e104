// The Showroom as customers meet it: a published folder on a maker's own site, alone, in a frame and in the element.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after, before, describe, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { lacking, savedFile } from './engines.js';
import { browse, open, ready, sizes } from './harness.js';
import { host } from './site.js';

const folder = (path) => fileURLToPath(new URL(path, import.meta.url));
const published = folder('../out/published');
const sample = folder('../../www/sample');

let browser;
/** A site with the sample page in a folder, the published folder below it, and a host that does not know wasm. */
let site;
/** The published folder somewhere else: another origin. */
let elsewhere;
before(async () => {
  const mounts = { '/our/shop/chairs/': published, '/our/shop/': sample };
  [browser, site, elsewhere] = await Promise.all([browse(), host(mounts, { '.wasm': 'text/plain' }), host({ '/x/': published })]);
});
after(async () => {
  await browser.close();
  await Promise.all([site.stop(), elsewhere.stop()]);
});

const chairs = () => `${site.address}/our/shop/chairs/`;

/** Opens the Showroom alone, runs the test, and demands that nothing went wrong unseen. */
async function visit(run, { viewport = sizes.phone, address = chairs(), mails = false, ...options } = {}) {
  const { page, context, faults } = await open(browser, address, { viewport, ...options });
  await run(new Visitor(page), page);
  assert.deepEqual(mails ? faults.filter((fault) => !fault.startsWith('left the origin: mailto:')) : faults, []);
  await context.close();
}

/** The Showroom as somebody at it knows it; `page` may be a frame of another page. */
class Visitor {
  constructor(page) {
    this.page = page;
    this.label = page.locator('#label dl');
  }

  field(label) {
    return this.page.getByRole('textbox', { name: label, exact: true });
  }

  async type(label, text) {
    await this.field(label).fill(text);
    await this.field(label).press('Enter');
  }

  /** Does something, and waits until the label has changed. */
  async changing(act) {
    const before = await this.label.innerText();
    await act();
    for (let tries = 0; (await this.label.innerText()) === before; tries++) {
      assert.ok(tries < 300, `the label still says ${before}`);
      await new Promise((done) => setTimeout(done, 50));
    }
  }

  async ask() {
    await this.page.getByRole('button', { name: 'Ask for a quote' }).click();
    const dialog = this.page.getByRole('dialog', { name: 'Ask for a quote' });
    await dialog.waitFor();
    return dialog;
  }
}

for (const [name, viewport] of Object.entries(sizes)) {
  describe(`the Showroom at the width of a ${name}`, () => {
    test('it shows what the maker opened and nothing else', () =>
      visit(
        async (visitor, page) => {
          assert.equal(await page.getByRole('heading', { level: 1 }).innerText(), 'Quillbeam Chairs (invented)');
          assert.match(await page.title(), /Quillbeam/);
          assert.deepEqual(await page.locator('#kinds .kind-name').allInnerTexts(), ['Kitchen chair', 'Armchair', 'Stool', 'Bar chair', 'Bench for two']);
          assert.match(await visitor.label.innerText(), /from €\d+\.\d\d/);
          assert.equal(await page.getByRole('slider', { name: 'Seat height', exact: true }).getAttribute('min'), '420');
          assert.equal(await page.getByRole('slider', { name: 'Seat height', exact: true }).getAttribute('max'), '480');
          const knobs = await page.locator('[data-knob]').evaluateAll((all) => all.map((knob) => knob.dataset.knob));
          // Some are offered twice: beside the picture and on it.
          assert.deepEqual([...new Set(knobs)].sort(), ['back', 'back_height', 'back_slats', 'seat', 'seat_height', 'seat_width', 'sits', 'species', 'stature']);
          assert.equal(await page.locator('[data-knob="species"] option').count(), 5);
          for (const bench of ['Cutting list', 'Joints', 'Hours', 'Price and work', 'Workshop']) assert.equal(await page.getByText(bench).count(), 0, bench);
          assert.equal(await page.evaluate(() => (scrollTo(1e6, 0), scrollX)), 0, 'the page can be scrolled sideways');
          assert.equal(await page.evaluate(() => getComputedStyle(document.querySelector('#brand')).color), 'rgb(31, 95, 91)');
        },
        { viewport, colorScheme: 'light' },
      ));

    test('nothing covers the buttons of the picture or the price', () =>
      visit(
        async (_, page) => {
          const hit = await page.evaluate(() => {
            const names = ['#view-buttons .looks:first-child button', '#view-buttons .looks:last-child button', '.ask-button', '.cell-price dd'];
            return names.map((name) => {
              const box = document.querySelector(name).getBoundingClientRect();
              const at = [[box.left + 2, box.top + 2], [box.right - 2, box.bottom - 2]];
              return at.map(([x, y]) => Boolean(document.elementFromPoint(x, y)?.closest(name)));
            });
          });
          assert.deepEqual(hit.flat(), Array(8).fill(true));
        },
        { viewport },
      ));
  });
}

test('a knob changes the chair, and a size outside what is allowed is refused beside it', () =>
  visit(async (visitor, page) => {
    await visitor.changing(() => visitor.type('Seat height', '470'));
    const before = await visitor.label.innerText();
    await visitor.type('Seat height', '500');
    assert.match(await page.getByRole('alert').filter({ hasText: 'Seat height' }).innerText(), /from 420 mm to 480 mm/);
    assert.equal(await visitor.label.innerText(), before);
  }));

test('a quote is asked for by mail, with the chair and a link that opens it', { skip: lacking('cdp') }, () =>
  visit(async (visitor, page) => {
    await visitor.changing(() => visitor.type('Seat height', '471'));
    const dialog = await visitor.ask();
    await dialog.getByLabel('How many').fill('4');
    await dialog.getByLabel('Your name').fill('Ann & Bob=?');
    const words = dialog.getByLabel('What the mail says');
    await page.waitForFunction(() => document.querySelector('#ask-words').value.includes('Ann & Bob=?'));
    const text = await words.inputValue();
    for (const said of ['Please quote for 4 × Kitchen chair.', 'Seat height: 471 mm', 'Price seen: from €', `${chairs()}#design/1;seat_height=471;told=from.EUR.`]) {
      assert.ok(text.includes(said), `${said} in ${text}`);
    }
    const mail = await mailOf(page, () => dialog.getByRole('button', { name: 'Open my mail program' }).click());
    assert.equal(mail.protocol + mail.pathname, 'mailto:bench@quillbeam.example');
    assert.ok(mail.href.length <= 1900, `${mail.href.length} characters`);
    assert.equal(mail.searchParams.get('subject'), 'Kitchen chair: please quote (4 chairs)');
    assert.equal(mail.searchParams.get('body').replaceAll('\r\n', '\n'), text);
    const link = /http\S+/.exec(text)[0];
    await visit(async (other) => assert.equal(await other.page.getByRole('slider', { name: 'Seat height', exact: true }).inputValue(), '471'), { address: link });
  }, { mails: true }));

/** The address that a click hands to the mail program, which a browser in a test does not have. */
async function mailOf(page, click) {
  const client = await page.context().newCDPSession(page);
  await client.send('Page.enable');
  const asked = new Promise((settle) => client.on('Page.frameRequestedNavigation', ({ url }) => settle(url)));
  await click();
  return new URL(await asked);
}

test('or the order is saved with what was told, and nothing is sent', () =>
  visit(async (visitor, page) => {
    const sent = [];
    page.on('request', (request) => sent.push(request.method()));
    const dialog = await visitor.ask();
    await page.waitForFunction(() => document.querySelector('#ask-words').value !== '');
    const [download] = await Promise.all([savedFile(page), dialog.getByRole('button', { name: 'Save order.json' }).click()]);
    assert.equal(download.suggestedFilename(), 'kitchen-chair.order.json');
    const order = JSON.parse(await readFile(await download.path(), 'utf8'));
    assert.equal(order.crestrail, 'order/2');
    const [{ knobs, told, quantity }] = order.lines;
    assert.deepEqual([quantity, knobs.family, told.offer, told.label.way, told.label.currency], [1, 'side_chair', 'Kitchen chair', 'from', 'EUR']);
    assert.ok(told.label.minor > 10_000 && told.size.height > 800);
    assert.deepEqual(sent.filter((method) => method !== 'GET'), []);
  }));

test('a link to a chair that is not on offer is answered with one that is, and why', () =>
  visit(async (visitor, page) => {
    await page.getByRole('radio', { name: 'Stool' }).click();
    await page.waitForFunction(() => location.hash.includes('family=stool'));
    // From the Workshop: a size that is not open here.
    await page.evaluate((hash) => void (location.hash = hash), checked('design/1;family=stool;rail_width=70'));
    const notice = page.locator('#notices .notice').filter({ hasText: 'not offered here, so Stool is shown instead' });
    await notice.waitFor();
    assert.match(await notice.innerText(), /Height of the seat rails is 70 mm; with “Stool” it is \d+ mm\./);
    assert.ok(await page.getByRole('radio', { name: 'Stool' }).isChecked());
    assert.match(await visitor.label.innerText(), /450 mm|× 450/);
  }));

/** The text of a link with its checksum, FNV-1a of 32 bits. @param {string} text */
function checked(text) {
  let hash = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  return `${text};check=${hash.toString(16).padStart(8, '0')}`;
}

test('it works without the site once it was there', async () => {
  const other = await host({ '/chairs/': published });
  const { page, context, faults } = await open(browser, `${other.address}/chairs/`, { viewport: sizes.phone });
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await page.waitForLoadState('networkidle');
  await other.stop();
  await page.reload();
  await ready(page);
  assert.match(await page.locator('#label dl').innerText(), /from €/);
  assert.deepEqual(faults, []);
  await context.close();
});

test('a showroom.json that was edited into nonsense is refused by name', async () => {
  const page = await (await browser.newContext()).newPage();
  const text = await readFile(`${published}/showroom.json`, 'utf8');
  const wrong = { ...JSON.parse(text), language: 'xx' };
  for (const [body, says] of [
    [JSON.stringify(wrong), /language: The page has no words in "xx"/],
    [text.slice(0, 300), /showroom\.json: /],
    [text.replace('showroom/1', 'showroom/7'), /showroom\/7 is newer/],
  ]) {
    await page.route('**/showroom.json', (route) => route.fulfill({ body, contentType: 'application/json' }));
    await page.goto(`${elsewhere.address}/x/`);
    await page.locator('[data-fault]').waitFor();
    assert.match(await page.locator('#loading').innerText(), says);
    await page.unroute('**/showroom.json');
  }
  await page.route('**/showroom.json', (route) => route.fulfill({ status: 404 }));
  await page.goto(`${elsewhere.address}/x/`);
  await page.locator('[data-fault]').waitFor();
  assert.match(await page.locator('#loading').innerText(), /could not be read beside this page \(Error: 404\)/);
  await page.context().close();
});

describe('on a page of the maker’s own', () => {
  /** Opens the sample page and waits for the chair in it; `change` may alter the page before. */
  async function onHost(run, change = (html) => html) {
    const context = await browser.newContext({ viewport: sizes.desk, locale: 'en-GB' });
    const page = await context.newPage();
    const errors = [];
    page.on('pageerror', (error) => errors.push(error.message));
    page.on('console', (message) => ['error', 'warning'].includes(message.type()) && !message.location().url.endsWith('favicon.ico') && errors.push(message.text()));
    site.pages.set('/our/shop/host.html', change(await readFile(`${sample}/host.html`, 'utf8')));
    await page.addInitScript(() => {
      window.heard = [];
      for (const name of ['ready', 'change', 'ask']) addEventListener(name, ({ type, detail }) => window.heard.push({ type, detail }), true);
    });
    await page.goto(`${site.address}/our/shop/host.html`);
    await page.waitForFunction(() => window.heard.some(({ type }) => type === 'change'));
    const frame = page.frames().find((other) => other !== page.mainFrame());
    await frame.locator('html[data-ready]').waitFor();
    await run({ page, frame, visitor: new Visitor(frame), last: () => page.evaluate(() => window.heard.at(-1)) });
    assert.deepEqual(errors, []);
    await context.close();
  }

  test('the element shows the chair in the page’s colours and tells of each change', () =>
    onHost(async ({ page, frame, visitor, last }) => {
      assert.equal(await frame.evaluate(() => getComputedStyle(document.documentElement).backgroundColor), 'rgb(246, 241, 231)');
      assert.equal(await frame.evaluate(() => getComputedStyle(document.querySelector('#brand')).color), 'rgb(122, 59, 18)');
      assert.match(await page.locator('#shown').innerText(), /^Kitchen chair, from €\d+/);
      await visitor.changing(() => visitor.type('Seat height', '465'));
      await page.waitForFunction(() => window.heard.at(-1).detail.fragment.includes('seat_height=465'));
      const { detail } = await last();
      assert.ok(detail.link.startsWith(`${chairs()}`) && detail.link.endsWith(detail.fragment));
      assert.deepEqual([detail.offer, detail.design.seat_height, detail.label.currency], ['Kitchen chair', 465, 'EUR']);
    }));

  test('its attributes choose offer, kind and design, and a link that is cut short changes nothing', () =>
    onHost(async ({ page, frame, last }) => {
      const set = (name, value) => page.evaluate(([n, v]) => document.querySelector('crestrail-chair').setAttribute(n, v), [name, value]);
      const told = (offer) => page.waitForFunction((name) => window.heard.at(-1).detail?.offer === name, offer);
      await set('offer', 'Stool');
      await told('Stool');
      const { detail } = await last();
      await set('family', 'bar_chair');
      await told('Bar chair');
      await set('design', detail.link);
      await told('Stool');
      await set('design', detail.fragment.slice(0, -2));
      await frame.locator('#notices .notice').waitFor();
      assert.equal((await last()).detail.offer, 'Stool');
      await page.evaluate(() => document.querySelector('crestrail-chair').style.setProperty('--crestrail-accent', '#123456'));
      await frame.waitForFunction(() => getComputedStyle(document.querySelector('#brand')).color === 'rgb(18, 52, 86)');
    }));

  test('a page that sees to the quote itself keeps the mail program shut', { skip: lacking('cdp') }, () =>
    onHost(async ({ page, frame, visitor, last }) => {
      await page.evaluate(() => document.querySelector('crestrail-chair').addEventListener('ask', (event) => event.preventDefault()));
      const dialog = await visitor.ask();
      await frame.waitForFunction(() => document.querySelector('#ask-words').value !== '');
      const client = await page.context().newCDPSession(page);
      await client.send('Page.enable');
      const moves = [];
      client.on('Page.frameRequestedNavigation', ({ url }) => moves.push(url));
      await dialog.getByRole('button', { name: 'Open my mail program' }).click();
      await page.waitForFunction(() => window.heard.at(-1).type === 'ask');
      const { detail } = await last();
      assert.equal(detail.order.lines[0].told.offer, 'Kitchen chair');
      assert.match(detail.body, /Please quote for 1 × Kitchen chair/);
      await frame.waitForTimeout(300);
      assert.deepEqual(moves, []);
    }));

  test('it works across origins, and messages from elsewhere are not heard', () =>
    onHost(
      async ({ page, frame, last }) => {
        assert.equal(new URL(frame.url()).origin, elsewhere.address);
        const offer = (await last()).detail.offer;
        // Another hello, and one from within: the port is given already.
        await page.evaluate(() => {
          const { port2 } = new MessageChannel();
          document.querySelector('crestrail-chair').shadowRoot.querySelector('iframe').contentWindow.postMessage({ crestrail: 'hello', wish: { offer: 'Stool' } }, '*', [port2]);
          window.postMessage({ event: 'change', detail: { offer: 'Stool' } }, '*');
        });
        await frame.evaluate(() => window.postMessage({ crestrail: 'hello', wish: { offer: 'Stool' } }, '*', [new MessageChannel().port2]));
        await page.waitForTimeout(500);
        assert.equal((await last()).detail.offer, offer);
        assert.ok(await frame.getByRole('radio', { name: 'Kitchen chair' }).isChecked());
      },
      (html) => html.replace('<crestrail-chair ', `<crestrail-chair src="${elsewhere.address}/x/" `),
    ));

  test('it can stand in a bare frame, without the element', async () => {
    const context = await browser.newContext({ viewport: sizes.desk });
    const page = await context.newPage();
    site.pages.set('/our/shop/bare.html', '<iframe src="chairs/" width="400" height="700"></iframe>');
    await page.goto(`${site.address}/our/shop/bare.html`);
    const frame = page.frameLocator('iframe');
    await frame.locator('html[data-ready]').waitFor();
    assert.match(await frame.locator('#label dl').innerText(), /from €/);
    await context.close();
  });
});
