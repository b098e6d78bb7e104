// Which browser drives the tests. The same files run in each; what an engine's driver cannot do is skipped, with its reason.
//
//   BROWSER_ENGINE=chromium   (what runs without it) Debian's Chromium; CHROMIUM names another
//   BROWSER_ENGINE=firefox    Debian's Firefox ESR as it is, over WebDriver BiDi; FIREFOX names another
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { mkdir, readdir, rename, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, firefox } from 'playwright-core';

export const engine = process.env.BROWSER_ENGINE ?? 'chromium';

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';
const FIREFOX = process.env.FIREFOX ?? '/usr/bin/firefox-esr';

// Quiet: nothing is looked up, updated or synchronised, so that every request seen is the page's own.
const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Where Firefox puts what is saved; each run of a file of tests has its own. */
const shelf = mkdtempSync(join(tmpdir(), 'crestrail-saved-'));
process.on('exit', () => rmSync(shelf, { recursive: true, force: true }));

const engines = {
  chromium: {
    saved: (page) => page.waitForEvent('download'),
    withoutStorage: (folder, options) => {
      // As somebody sets it who blocks all cookies and data of sites.
      mkdirSync(join(folder, 'Default'), { recursive: true });
      writeFileSync(join(folder, 'Default/Preferences'), JSON.stringify({ profile: { default_content_setting_values: { cookies: 2 } } }));
      return chromium.launchPersistentContext(folder, { executablePath: CHROMIUM, args: flags, ...options });
    },
    launch: () => chromium.launch({ executablePath: CHROMIUM, args: flags }),
    // Without a compiler at hand this Chromium has no WebAssembly; its older switches for that are gone.
    withoutWasm: () => chromium.launch({ executablePath: CHROMIUM, args: [...flags, '--js-flags=--jitless'] }),
    lacks: {},
  },
  firefox: {
    // The channel makes the driver speak BiDi, which a Firefox as it is published understands.
    launch: () => firefox.launch({ channel: 'moz-firefox', executablePath: FIREFOX, downloadsPath: shelf }),
    withoutWasm: () => firefox.launch({ channel: 'moz-firefox', executablePath: FIREFOX, firefoxUserPrefs: { 'javascript.options.wasm': false } }),
    saved: onShelf,
    withoutStorage: (folder, options) =>
      firefox.launchPersistentContext(folder, { channel: 'moz-firefox', executablePath: FIREFOX, downloadsPath: shelf, firefoxUserPrefs: { 'network.cookie.cookieBehavior': 2 }, ...options }),
    lacks: {
      cdp: 'Firefox has no DevTools protocol of Chromium, which touches and throttles',
      chooser: 'Firefox does not tell its driver of each file chooser that opens, when many open one after the other',
      mobile: 'Firefox on a desk does not pretend to be a phone; a narrow window is tested',
    },
  },
};

const own = engines[engine];
if (!own) throw new Error(`BROWSER_ENGINE=${engine}: known are ${Object.keys(engines).join(', ')}`);

/** Starts a browser. */
export function browse() {
  return own.launch();
}

/** Starts a browser in which WebAssembly is switched off. */
export function withoutWasm() {
  return own.withoutWasm();
}

/**
 * Whether a test must be skipped, as `node:test` takes it: the reason, or false.
 * @param {keyof typeof engines.firefox.lacks} need
 */
export function lacking(need) {
  return own.lacks[need] ?? false;
}

/**
 * The next file that a page saves, as the driver tells it; to be asked for before it is saved.
 * @param {import('playwright-core').Page} page
 * @returns {Promise<{ suggestedFilename(): string, path(): Promise<string> }>}
 */
export function savedFile(page) {
  return own.saved(page);
}

/** A browser whose owner lets no site keep anything. @param {string} folder of its profile, empty @param {object} options of its pages */
export function withoutStorage(folder, options) {
  return own.withoutStorage(folder, options);
}

/** How long a file may take to be saved on a busy machine. */
const PATIENCE = 15_000;
let count = 0;

/** Firefox tells of what is saved without a name that its driver asks for, so the file itself is waited for. */
async function onShelf() {
  for (const end = Date.now() + PATIENCE; Date.now() < end; await new Promise((done) => setTimeout(done, 40))) {
    const names = (await readdir(shelf, { withFileTypes: true })).filter((entry) => entry.isFile()).map(({ name }) => name);
    const [name] = names;
    if (!name || names.some((other) => other.endsWith('.part')) || (await stat(join(shelf, name))).size === 0) continue;
    const apart = join(shelf, String(++count));
    await mkdir(apart);
    await rename(join(shelf, name), join(apart, name));
    return { suggestedFilename: () => name, path: async () => join(apart, name) };
  }
  throw new Error('nothing was saved');
}
