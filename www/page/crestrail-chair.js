// <crestrail-chair>: the Showroom on a page of the maker's own. Load this file as a module from the published folder:
//
//   <script type="module" src="chairs/crestrail-chair.js"></script>
//   <crestrail-chair offer="Kitchen chair"><a href="chairs/">Choose your chair</a></crestrail-chair>
//
// It needs nothing else of the folder's files here: the Showroom runs in a frame of its own, so neither page can disturb the
// other's styles and scripts. What is written in README.md of the source under "On a page of your own" is all there is to it.

/** Where this file lies is where the Showroom lies. */
const HOME = new URL('./', import.meta.url);

const WISHES = ['offer', 'family', 'design', 'scheme'];
/** Custom properties of CSS that are handed on, and what the Showroom calls them. */
const COLOURS = { accent: '--crestrail-accent', paper: '--crestrail-paper', ink: '--crestrail-ink' };

const SHEET = `
  :host { display: block; height: 46rem; max-height: 100svh; }
  :host([hidden]) { display: none; }
  iframe { display: block; width: 100%; height: 100%; border: 0; }
`;

/**
 * A chair to choose. Attributes: `offer` (a name on offer), `family` (a kind of chair), `design` (a link to a chair, or what
 * follows its #), `scheme` (light or dark), `src` (the published folder, where it is not that of this file), `label` (what a
 * screen reader calls the frame). Events: `ready`; `change` with `detail` {link, fragment, offer, design, label, price};
 * `ask` with the same and {subject, body, order}: whoever calls preventDefault() sees to the quote, else a mail program opens.
 */
export class CrestrailChair extends HTMLElement {
  static observedAttributes = [...WISHES, 'src', 'label', 'class', 'style'];

  #frame = document.createElement('iframe');
  /** @type {MessagePort | undefined} */
  #port;
  /** What the Showroom calls itself, in its own language, once it has said so. */
  #title = '';
  #dark = matchMedia('(prefers-color-scheme: dark)');
  #recolour = () => this.refresh();

  constructor() {
    super();
    const root = this.attachShadow({ mode: 'open' });
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(SHEET);
    root.adoptedStyleSheets = [sheet];
    this.#frame.allow = 'clipboard-write';
    this.#frame.addEventListener('load', () => this.#hello());
  }

  connectedCallback() {
    this.#frame.title = this.getAttribute('label') ?? this.#title;
    this.#frame.src = this.#address.href;
    // Not before it has an address: an empty frame loads too, and would be greeted.
    if (!this.#frame.isConnected) this.shadowRoot?.append(this.#frame);
    this.#dark.addEventListener('change', this.#recolour);
  }

  disconnectedCallback() {
    this.#dark.removeEventListener('change', this.#recolour);
    this.#port?.close();
    this.#port = undefined;
  }

  /** @param {string} name @param {string | null} was @param {string | null} now */
  attributeChangedCallback(name, was, now) {
    if (!this.isConnected || was === now) return;
    if (name === 'src') this.#frame.src = this.#address.href;
    else if (name === 'label') this.#frame.title = now ?? this.#title;
    else if (WISHES.includes(name)) this.#port?.postMessage({ [name]: now ?? '' });
    else this.refresh();
  }

  /** Hands the colours on anew, after a style sheet has changed them. */
  refresh() {
    this.#port?.postMessage({ colours: this.#colours });
  }

  get #address() {
    const src = this.getAttribute('src');
    // A folder by its page's name: some hosts list a folder, or have another page for it.
    const folder = src === null ? HOME : new URL(src.endsWith('.html') || src.endsWith('/') ? src : `${src}/`, document.baseURI);
    return folder.href.endsWith('/') ? new URL('index.html', folder) : folder;
  }

  get #colours() {
    const style = getComputedStyle(this);
    const set = Object.entries(COLOURS).map(([name, property]) => [name, style.getPropertyValue(property).trim()]);
    return Object.fromEntries(set.filter(([, colour]) => colour !== ''));
  }

  /**
   * The frame has loaded: it is given a port that only it and this element hold. The message goes to the Showroom's own
   * origin alone, so a frame that has wandered elsewhere gets nothing.
   */
  #hello() {
    this.#port?.close();
    const { port1, port2 } = new MessageChannel();
    this.#port = port1;
    port1.onmessage = ({ data }) => this.#hear(data);
    const wish = Object.fromEntries(WISHES.filter((name) => this.hasAttribute(name)).map((name) => [name, this.getAttribute(name)]));
    const { origin } = this.#address;
    // A page opened from a disk has no origin that could be named.
    const target = origin === 'null' ? '*' : origin;
    this.#frame.contentWindow?.postMessage({ crestrail: 'hello', wish: { ...wish, colours: this.#colours } }, target, [port2]);
  }

  /** @param {{ event: string, id?: number, title?: string, detail?: unknown }} said */
  #hear({ event, id, title, detail }) {
    if (event === 'ready' && title) {
      this.#title = title;
      this.#frame.title = this.getAttribute('label') ?? title;
    }
    if (!['ready', 'change', 'ask'].includes(event)) return;
    const told = new CustomEvent(event, { detail, cancelable: event === 'ask' });
    const goes = this.dispatchEvent(told);
    if (event === 'ask') this.#port?.postMessage({ id, handled: !goes });
  }
}

if (!customElements.get('crestrail-chair')) customElements.define('crestrail-chair', CrestrailChair);
