import { Emitter } from './emitter.js';
import { say } from './words.js';

/** @import { HostColours } from './dress.js' */
/** @import { Design, Label } from './messages.d.ts' */

/**
 * What the page around wishes; each may be absent.
 * @typedef {{ offer?: string, family?: string, design?: string, scheme?: string, colours?: HostColours }} Wish
 */

/** @typedef {{ link: string, fragment: string, offer: string, design: Design, label: Label | null, price: string | null }} Shown */

/**
 * The way to the element `<crestrail-chair>` of a page that shows this one in a frame. The page around says hello once, from
 * the window that holds the frame, and hands over a port; all else goes through that port, which nobody else holds.
 * @extends {Emitter<{ wish: Wish }>}
 */
export class Embed extends Emitter {
  /** @type {MessagePort | undefined} */
  #port;
  /** @type {Wish} what was wished so far */
  wish = {};
  /** @type {Map<number, (handled: boolean) => void>} */
  #asked = new Map();
  #asks = 0;

  constructor() {
    super();
    if (window.parent !== window) addEventListener('message', (event) => this.#hello(event));
  }

  /** Says what is shown now. @param {Shown} shown */
  change(shown) {
    this.#port?.postMessage({ event: 'change', detail: shown });
  }

  /**
   * Tells that a quote is asked for.
   * @param {Shown & { subject: string, body: string, order: unknown }} detail
   * @returns {Promise<boolean>} whether the page around takes care of it
   */
  ask(detail) {
    const { promise, resolve } = Promise.withResolvers();
    if (!this.#port) return Promise.resolve(false);
    this.#asked.set(++this.#asks, resolve);
    this.#port.postMessage({ event: 'ask', id: this.#asks, detail });
    return promise;
  }

  /** @param {MessageEvent} event */
  #hello({ source, data, ports: [port] }) {
    if (source !== window.parent || data?.crestrail !== 'hello' || !port || this.#port) return;
    this.#port = port;
    port.onmessage = ({ data: said }) => {
      if (typeof said?.handled === 'boolean') this.#answered(said);
      else this.#wished(said);
    };
    this.#wished(data.wish);
    port.postMessage({ event: 'ready', title: say('choose') });
  }

  /** @param {{ id: number, handled: boolean }} answer */
  #answered({ id, handled }) {
    this.#asked.get(id)?.(handled);
    this.#asked.delete(id);
  }

  /** Only texts are taken over, and only those that are known. @param {any} said */
  #wished(said) {
    if (typeof said !== 'object' || said === null) return;
    const texts = (/** @type {any} */ from, /** @type {string[]} */ names) =>
      Object.fromEntries(names.filter((name) => typeof from?.[name] === 'string' && from[name].length <= 8192).map((name) => [name, from[name]]));
    /** @type {Wish} */
    const wish = texts(said, ['offer', 'family', 'design', 'scheme']);
    if (said.colours) wish.colours = texts(said.colours, ['accent', 'paper', 'ink']);
    this.wish = { ...this.wish, ...wish };
    this.emit('wish', wish);
  }
}
