// A short walk through the page in WebKit: it loads, draws, follows a knob, and opens its lists. The other browser tests need a driver
// that Debian's WebKitGTK has not; this one speaks W3C WebDriver to it.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { after, before, describe, test } from 'node:test';
import { dist } from './harness.js';
import { roughHost } from './rough.js';
import { Session } from './webdriver.js';

const DRIVER = process.env.WEBKIT_DRIVER ?? '/usr/bin/WebKitWebDriver';
const BROWSER = process.env.WEBKIT_BROWSER ?? '/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser';
/** A screen that nobody sees, with a number hardly anybody takes. */
const SCREEN = `:${4000 + (process.pid % 1000)}`;

const absent = [DRIVER, BROWSER].find((program) => !existsSync(program));

describe('in WebKit', { skip: absent && `${absent} is not installed (Debian: webkit2gtk-driver, xvfb)` }, () => {
  /** @type {Session} */
  let session;
  let host;
  before(async () => {
    const besides = process.env.DISPLAY ? [] : [spawn('Xvfb', [SCREEN, '-screen', '0', '1280x900x24', '-nolisten', 'tcp'], { stdio: 'ignore' })];
    host = await roughHost(dist);
    session = await Session.start({
      driver: DRIVER,
      args: (port) => [`--port=${port}`],
      capabilities: { 'webkitgtk:browserOptions': { binary: BROWSER, args: ['--automation', '--private'] } },
      env: { DISPLAY: process.env.DISPLAY ?? SCREEN, WEBKIT_DISABLE_DMABUF_RENDERER: '1', LIBGL_ALWAYS_SOFTWARE: '1' },
      besides,
    });
    await session.go(host.address);
    await session.waitFor("return document.documentElement.dataset.ready === ''");
  });
  after(async () => {
    await session?.end();
    await host?.stop();
  });

  const shown = () => session.run("return [document.querySelector('#summary dl').innerText, document.querySelector('#picture > svg').innerHTML.length]");

  test('the chair is drawn, with its sizes and its price', async () => {
    const [summary, drawn] = await shown();
    assert.match(summary, /€/);
    assert.ok(drawn > 5000, `${drawn} characters of a picture`);
    assert.equal(await session.run("return document.querySelector('#trouble').hidden"), true);
  });

  test('a knob moves it, by the keyboard', async () => {
    const [before] = await shown();
    // U+E014 is the right arrow (WebDriver, 17.4.2).
    await session.press('.knob[data-knob="seat_height"] input[type="range"]', '\uE014');
    await session.waitFor("return document.querySelector('#summary dl').innerText !== arguments[0]", before);
    await session.waitFor("return location.hash.includes('seat_height=')");
  });

  test('the lists open', async () => {
    for (const name of ['Joints', 'Price', 'Sheets']) {
      await session.run("[...document.querySelectorAll('[role=tab]')].find((tab) => tab.innerText.startsWith(arguments[0])).click()", name);
      await session.waitFor("return [...document.querySelectorAll('[role=tabpanel]')].some((panel) => !panel.hidden && panel.innerText.length > 100)");
    }
  });
});
