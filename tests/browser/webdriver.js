// As much of W3C WebDriver (https://www.w3.org/TR/webdriver2/) as a short walk through the page takes, for browsers that the tests' own
// driver does not know.
import { spawn } from 'node:child_process';
import { createServer } from 'node:net';

/** How long an element or a state is waited for on a busy machine, in milliseconds. */
const PATIENCE = 30_000;
/** The name under which an element is passed, fixed by the standard. */
const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';

/** A port that was free a moment ago. @returns {Promise<number>} */
function freePort() {
  return new Promise((settle, fail) => {
    const server = createServer().once('error', fail);
    server.listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => settle(port));
    });
  });
}

/** Tries until something is given back. @template T @param {string} what @param {() => Promise<T | undefined>} attempt @returns {Promise<T>} */
async function until(what, attempt) {
  for (const end = Date.now() + PATIENCE; Date.now() < end; await new Promise((done) => setTimeout(done, 100))) {
    const found = await attempt();
    if (found !== undefined && found !== false && found !== null) return found;
  }
  throw new Error(`waited in vain for ${what}`);
}

/** A session of one browser window. */
export class Session {
  #base;
  #programs;

  /** @param {string} base @param {import('node:child_process').ChildProcess[]} programs */
  constructor(base, programs) {
    this.#base = base;
    this.#programs = programs;
  }

  /**
   * Starts a driver and a window of its browser.
   * @param {{ driver: string, args: (port: number) => string[], capabilities: object, env?: NodeJS.ProcessEnv, besides?: import('node:child_process').ChildProcess[] }} what
   */
  static async start({ driver, args, capabilities, env, besides = [] }) {
    const port = await freePort();
    const programs = [spawn(driver, args(port), { env: { ...process.env, ...env }, stdio: 'ignore' }), ...besides];
    const root = `http://127.0.0.1:${port}`;
    try {
      await until('the driver', () => fetch(`${root}/status`).then((answer) => answer.ok, () => false));
      const { sessionId } = await ask('POST', `${root}/session`, { capabilities: { alwaysMatch: capabilities } });
      return new Session(`${root}/session/${sessionId}`, programs);
    } catch (why) {
      programs.forEach((program) => program.kill());
      throw why;
    }
  }

  /** @param {string} url */
  go(url) {
    return ask('POST', `${this.#base}/url`, { url });
  }

  /** Runs the body of a function in the page. @param {string} script @param {unknown[]} [args] */
  run(script, ...args) {
    return ask('POST', `${this.#base}/execute/sync`, { script, args });
  }

  /** Waits until a function's body gives something that is true. @param {string} script @param {unknown[]} args */
  waitFor(script, ...args) {
    return until(script, () => this.run(script, ...args));
  }

  /** @param {string} value a CSS selector */
  async find(value) {
    const found = await until(value, () => ask('POST', `${this.#base}/element`, { using: 'css selector', value }).catch(() => undefined));
    return found[ELEMENT];
  }

  /** @param {string} selector */
  async click(selector) {
    await ask('POST', `${this.#base}/element/${await this.find(selector)}/click`, {});
  }

  /** Presses keys in an element. @param {string} selector @param {string} text */
  async press(selector, text) {
    await ask('POST', `${this.#base}/element/${await this.find(selector)}/value`, { text });
  }

  /** A picture of the window, as PNG. */
  async screenshot() {
    return Buffer.from(await ask('GET', `${this.#base}/screenshot`), 'base64');
  }

  async end() {
    await ask('DELETE', this.#base).catch(() => {});
    const ended = this.#programs.map((program) => new Promise((settle) => program.once('exit', settle)));
    this.#programs.forEach((program) => program.kill());
    await Promise.all(ended);
  }
}

/** @param {string} method @param {string} address @param {object} [body] */
async function ask(method, address, body) {
  const answer = await fetch(address, { method, ...(body && { body: JSON.stringify(body), headers: { 'Content-Type': 'application/json' } }) });
  const { value } = await answer.json();
  if (!answer.ok) throw new Error(`${value.error}: ${value.message}`);
  return value;
}
