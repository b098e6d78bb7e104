// Which browser drives the tests. The same files run in each; what an engine's driver cannot do is skipped, with its reason.
//
//   BROWSER_ENGINE=chromium   (what runs without it) Debian's Chromium; CHROMIUM names another
//   BROWSER_ENGINE=firefox    Debian's Firefox ESR as it is, over WebDriver BiDi; FIREFOX names another
import { chromium, firefox } from 'playwright-core';

export const engine = process.env.BROWSER_ENGINE ?? 'chromium';

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

const engines = {
  chromium: {
    launch: (more) => chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: [...flags, ...more] }),
    lacks: {},
  },
  firefox: {
    // The channel makes the driver speak BiDi, which a Firefox as it is published understands.
    launch: () => firefox.launch({ channel: 'moz-firefox', executablePath: process.env.FIREFOX ?? '/usr/bin/firefox-esr' }),
    lacks: {
      cdp: 'Firefox has no DevTools protocol of Chromium, which touches and throttles',
      flags: 'Firefox has no such command line flag',
      mobile: 'Firefox on a desk does not pretend to be a phone; a narrow window is tested',
    },
  },
};

const own = engines[engine];
if (!own) throw new Error(`BROWSER_ENGINE=${engine}: known are ${Object.keys(engines).join(', ')}`);

/** Starts a browser. @param {string[]} [more] flags of its own, for Chromium alone */
export function browse(more = []) {
  return own.launch(more);
}

/**
 * Whether a test must be skipped, as `node:test` takes it: the reason, or false.
 * @param {keyof typeof engines.firefox.lacks} need
 */
export function lacking(need) {
  return own.lacks[need] ?? false;
}
