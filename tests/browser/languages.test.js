// Each language on the packed page: chosen in the menu, remembered, laid out without overflow, and in a published folder.
import assert from 'node:assert/strict';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { spawnSync } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { languages } from '../../www/page/languages.js';
import { catalogueOf, coreOf, english, root } from './catalogue.js';
import { open, ready, single, together } from './harness.js';
import { outside } from './looking.js';
import { host } from './site.js';

const both = together();
const widths = { phone: { width: 360, height: 780 }, desk: { width: 1280, height: 800 } };
const wordsOf = (code) => (code === 'en' ? english : catalogueOf(code));
const TABS = ['cutting', 'joints', 'assembly', 'price', 'sheets', 'fit', 'findings'];

/** Opens the page for a reader whose browser asks for a language. */
function openIn(code, address, viewport) {
  return open(both.browser, address, { viewport, locale: code });
}

for (const { code } of languages) {
  for (const [size, viewport] of Object.entries(widths)) {
    test(`${code} on a ${size}: the page speaks it, and nothing is cut off or sticks out`, async () => {
      const words = wordsOf(code);
      const { page, context, faults } = await openIn(code, both.server.address, viewport);
      const { lang, dir } = await page.evaluate(() => ({ lang: document.documentElement.lang, dir: document.documentElement.dir }));
      assert.deepEqual({ lang, dir }, { lang: code, dir: code === 'ar' ? 'rtl' : 'ltr' });
      assert.equal(await page.title(), words.page_title);
      assert.equal(await page.locator('#menu-button').innerText(), words.menu);
      const wrong = [...(await page.evaluate(outside))];
      for (const tab of TABS) {
        const button = page.getByRole('tab', { name: words[`tab_${tab}`] });
        if ((await button.count()) === 0) continue;
        await button.first().click();
        await page.evaluate(() => document.querySelectorAll('#lists details, #knobs details').forEach((more) => (more.open = true)));
        await page.waitForTimeout(250);
        wrong.push(...(await page.evaluate(outside)).map((line) => `${tab}: ${line}`));
      }
      await page.locator('#menu-button').click();
      wrong.push(...(await page.evaluate(outside)).map((line) => `menu: ${line}`));
      assert.deepEqual([...new Set(wrong)], []);
      assert.deepEqual(faults, []);
      await context.close();
    });
  }
}

/** Titles of sheets for the bench, which are in English on the paper too, and read as words of the page do. */
const fromTheCore = new Set(['Gauges and cutters', 'Labels']);

for (const { code } of languages.filter((language) => language.code !== 'en')) {
  test(`${code}: no word of the page is left in English`, async () => {
    const words = wordsOf(code);
    const same = new Set(Object.values(words).flatMap((entry) => (typeof entry === 'string' ? [entry] : Object.values(entry))));
    // What has no values and is worded otherwise here: such a text on the page was not put through the catalogue.
    const left = Object.values(english).filter((text) => !/[{|]/.test(text) && !same.has(text));
    const { page, context } = await openIn(code, both.server.address, widths.desk);
    for (const tab of TABS) {
      const button = page.getByRole('tab', { name: words[`tab_${tab}`] });
      if ((await button.count()) > 0) await button.first().click();
    }
    const shown = await page.evaluate(() => {
      const texts = [...document.querySelectorAll('body *')].flatMap((element) => [element.getAttribute('aria-label'), element.getAttribute('placeholder'), ...[...element.childNodes].filter((node) => node.nodeType === 3 && !element.closest('noscript, svg')).map((node) => node.data)]);
      return texts.map((text) => text?.trim()).filter(Boolean);
    });
    assert.deepEqual(shown.filter((text) => left.includes(text) && !fromTheCore.has(text)), []);
    await context.close();
  });
}

test('nothing of another language is fetched for an English reader, and one catalogue for another', async () => {
  for (const [code, wanted] of [['en-GB', []], ['de-CH', ['words/de.json']], ['pt-BR', []]]) {
    const context = await both.browser.newContext({ locale: code, serviceWorkers: 'block' });
    const page = await context.newPage();
    const asked = [];
    page.on('request', (request) => asked.push(new URL(request.url()).pathname.slice(1)));
    await page.goto(both.server.address);
    await ready(page);
    assert.deepEqual(asked.filter((path) => path.startsWith('words/')), wanted, code);
    assert.equal(await page.locator('html').getAttribute('lang'), code === 'pt-BR' ? 'en' : code);
    await context.close();
  }
});

test('a language chosen in the menu is kept with the design, over a reload and on the page that sets up', async () => {
  const { page, context, faults } = await openIn('en-GB', both.server.address, widths.desk);
  await page.locator('#design-name').fill('Ash for Ann');
  const choose = async (words, code) => {
    await page.locator('#menu-button').click();
    await page.getByLabel(words.language, { exact: true }).selectOption(code);
    await page.waitForFunction((lang) => document.documentElement.lang === lang && 'ready' in document.documentElement.dataset, code);
  };
  await choose(english, 'ar');
  const arabic = catalogueOf('ar');
  assert.equal(await page.locator('#menu-button').innerText(), arabic.menu);
  assert.equal(await page.locator('#design-name').inputValue(), 'Ash for Ann');
  await page.reload();
  await ready(page);
  assert.equal(await page.locator('html').getAttribute('dir'), 'rtl');
  await page.goto(`${both.server.address}setup.html`);
  await page.locator('html[data-ready]').waitFor();
  assert.equal(await page.locator('h1').innerText(), arabic.setup_title);
  assert.deepEqual(await page.evaluate(outside), []);
  await page.goto(both.server.address);
  await ready(page);
  await choose(arabic, 'de');
  assert.equal(await page.locator('html').getAttribute('dir'), 'ltr');
  assert.equal(await page.locator('#menu-button').innerText(), catalogueOf('de').menu);
  assert.deepEqual(faults, []);
  await context.close();
});

test('where the words cannot be had, the page says so and is in English', async () => {
  const context = await both.browser.newContext({ locale: 'fr', serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.route('**/words/fr.json', (route) => route.fulfill({ status: 404 }));
  await page.goto(both.server.address);
  await ready(page);
  assert.equal(await page.locator('html').getAttribute('lang'), 'en');
  assert.match(await page.locator('#notices').innerText(), /The words in Français could not be loaded/);
  await context.close();
});

test('the single file holds the words of all languages', async () => {
  const { page, context, faults } = await openIn('es', single, widths.desk);
  assert.equal(await page.locator('#menu-button').innerText(), catalogueOf('es').menu);
  assert.deepEqual(faults, []);
  await context.close();
});

test('in text from right to left each value stands apart, and figures have the digits of the rule', async () => {
  const { page, context } = await openIn('ar-EG', both.server.address, widths.desk);
  assert.equal(await page.locator('html').getAttribute('lang'), 'ar-EG');
  const says = await page.locator('#picture').getAttribute('aria-label');
  assert.match(says, /\u2068\d+ مم\u2069/);
  assert.doesNotMatch(await page.locator('body').innerText(), /[٠-٩]/);
  // Digits of Arabic script may be typed all the same.
  await page.evaluate(() => document.querySelectorAll('#knobs details').forEach((more) => (more.open = true)));
  const knob = page.getByRole('textbox', { name: coreOf('ar')['Seat height'], exact: true });
  await knob.fill('٤٦٠');
  await knob.press('Enter');
  await page.waitForFunction(() => document.querySelector('.cell-seat dd')?.textContent?.startsWith('460'));
  assert.equal(await knob.getAttribute('aria-invalid'), null);
  await context.close();
});

/** Publishes the sample showroom in another language into a folder of its own, and hands it over served. */
async function published(language, run) {
  const at = await mkdtemp(join(tmpdir(), 'crestrail-languages-'));
  try {
    const showroom = JSON.parse(await readFile(join(root, 'core/chair/data/showroom.json'), 'utf8'));
    await writeFile(join(at, 'showroom.json'), JSON.stringify({ ...showroom, language }));
    const command = ['run', '--quiet', '--', 'publish', '--showroom', join(at, 'showroom.json'), '--shop', 'core/chair/data/shop.json', '--out', join(at, 'chairs')];
    const made = spawnSync('cargo', command, { cwd: root, encoding: 'utf8' });
    assert.equal(made.status, 0, made.stderr);
    const site = await host({ '/chairs/': join(at, 'chairs') });
    await run(`${site.address}/chairs/`).finally(() => site.stop());
  } finally {
    await rm(at, { recursive: true });
  }
}

/** A customer chooses German in a published Showroom that begins in another language: it stays, with the chair. */
async function chooseOther(address, words) {
  const { page, context, faults } = await openIn('en-GB', address, widths.phone);
  await page.locator('#knobs input[type=range]:visible').first().press('ArrowRight');
  await page.waitForFunction(() => document.querySelector('.cell-seat dd')?.textContent?.startsWith('451'));
  await page.getByLabel(words.language, { exact: true }).selectOption('de');
  const german = catalogueOf('de');
  await page.waitForFunction((ask) => document.querySelector('#label button')?.textContent === ask, german.ask);
  await ready(page);
  assert.deepEqual(await page.evaluate(() => [document.documentElement.lang, document.documentElement.dir]), ['de', 'ltr']);
  assert.match(await page.locator('.cell-seat dd').innerText(), /^451/);
  assert.equal(await page.locator('.skip').innerText(), german.skip);
  assert.deepEqual(faults, []);
  await context.close();
}

for (const language of ['fr-CH', 'ar-EG']) {
  test(`a published folder speaks the language that its showroom.json names: ${language}`, () =>
    published(language, async (address) => {
      const words = catalogueOf(language.slice(0, 2));
      for (const viewport of Object.values(widths)) {
        const { page, context, faults } = await openIn('en-GB', address, viewport);
        assert.deepEqual(await page.evaluate(() => [document.documentElement.lang, document.documentElement.dir]), [language, language === 'ar-EG' ? 'rtl' : 'ltr']);
        assert.equal(await page.locator('#label button').innerText(), words.ask);
        assert.match(await page.locator('#label').innerText(), /\d[.,]\d\d\s€/);
        await page.locator('#label button').click();
        await page.locator('#ask[open]').waitFor();
        assert.deepEqual(await page.evaluate(outside), []);
        const mail = await page.locator('#ask textarea').inputValue();
        assert.match(mail, /#design\/\S+$/m);
        assert.doesNotMatch(mail.match(/https?:\S+/)[0], /[\u2066-\u2069]/, 'a link is left bare for mail programs');
        assert.deepEqual(faults, []);
        await context.close();
      }
      await chooseOther(address, words);
      const text = await (await fetch(address)).text();
      assert.ok(text.includes(words.no_script) && !text.includes(english.no_script));
    }));
}
