// The Showroom: what customers of the workshop see. It knows the other modules of the page; the Workshop's main.js does not know it.
import { Advice } from './advice.js';
import { Ask } from './ask.js';
import { askWords } from './ask-words.js';
import { Banner } from './banner.js';
import { Bridge } from './bridge.js';
import { byId, debounce, el, setText } from './dom.js';
import { calledFile, listenForDrops, readFile } from './design-file.js';
import { DimensionDesk, onLengths } from './dimension-desk.js';
import { Dress } from './dress.js';
import { Embed } from './embed.js';
import { knobValue } from './format.js';
import { glide } from './glide.js';
import { canShare, Habits } from './habits.js';
import { showHints } from './hints.js';
import { Keeper } from './keeper.js';
import { drawOffers } from './kind-drawings.js';
import { Kinds } from './kinds.js';
import { KnobPanel } from './knob-panel.js';
import { languageLost } from './language-lost.js';
import { applies } from './knob-rules.js';
import { Label, priceWords } from './label.js';
import { languageMenu } from './language-menu.js';
import { languageOf, ROOM_KEY } from './languages.js';
import { lengths } from './length.js';
import { lengthChoices } from './length-choices.js';
import { Notices } from './notices.js';
import { Offline } from './offline.js';
import { Picture } from './picture.js';
import { markReady, ready } from './printing.js';
import { Scheme } from './scheme.js';
import { Session } from './session.js';
import { book, isPublished, showroomText } from './showroom-source.js';
import { Stepper } from './stepper.js';
import { tellTrouble } from './trouble.js';
import { pictureWords, ViewControls } from './view-controls.js';
import { fillWords, say, speak, speech } from './words.js';

/** @import { Answer, Design, Looked, LookRequest, Offer, Order, Refusal, Seen, ShowroomRead, Value } from './messages.d.ts' */
/** @import { Shown, Wish } from './embed.js' */
/** @import { Letter, Wanted } from './ask.js' */

const embed = new Embed();
const bridge = new Bridge();
const scheme = new Scheme();
const dress = new Dress();
const session = new Session();
const notices = new Notices(byId('notices'));

/** The whole Showroom, once its file is read. */
class Room {
  #read;
  /** The file's own object, with prices "from" once they are known. */
  #showroom;
  #shop;
  #place = 0;
  /** @type {Seen | undefined} of the last chair that could be built */
  #seen;
  #picture = new Picture(byId('picture'));
  #controls = new ViewControls(byId('view-rulers'), byId('view-buttons'), byId('tint-buttons'));
  #kinds = new Kinds(byId('kinds'), say('choose'));
  #panel = new KnobPanel(byId('knobs'), { allOpen: true });
  #banner = new Banner(byId('banner'), session.knobs);
  #advice = new Advice(byId('advice'), (knob) => session.labelOf(knob));
  #keeper = new Keeper(bridge, 'showroom-design');
  #label;
  #ask;
  #stepper = new Stepper(bridge, (want) => this.#request(want), 'lookAt');
  #sizes = new DimensionDesk({ picture: this.#picture, session, look: (change) => this.#look(change), turn: (change) => this.#turnOnPicture(change) });
  #findSoon = debounce(150, () => this.#findNearest());
  #habits = new Habits(
    {
      session,
      notices,
      show: ({ design }) => this.#openDesign(design),
      picture: async (design, view) => (await bridge.ask('lookAt', { ...this.#around(), offer: this.#place, design, view, want: ['picture'] })).ok?.picture,
      address: async () => (await this.#shown())?.link ?? location.href,
      around: () => this.#drawnFrom(),
    },
    'showroom-history',
  );
  #stopGlide = () => {};
  /** @type {Wanted} */
  #wanted = { count: 1, customer: '' };

  /** @param {ShowroomRead} read @param {unknown} shop */
  constructor(read, shop) {
    this.#read = read;
    this.#showroom = read.showroom;
    this.#shop = shop;
    byId('brand').replaceChildren(el('bdi', { text: read.brand }));
    byId('brand-line').replaceChildren(el('bdi', { text: read.line ?? '' }));
    this.#label = new Label(byId('label'), read.price_note);
    this.#ask = new Ask(byId('ask', HTMLDialogElement), read.contact.mail, read.contact.lines);
    this.#kinds.list(read.offers.map(({ name }, place) => ({ name: String(place), label: name })));
    this.#kinds.container.hidden = read.offers.length < 2;
    const act = (/** @type {'menu_surprise' | 'menu_share' | 'menu_keys'} */ word, /** @type {() => void} */ does) => el('button', { type: 'button', class: 'text-button', text: say(word), onclick: does });
    byId('head-acts').prepend(this.#habits.undo.container);
    byId('room-acts').append(act('menu_surprise', () => this.#habits.surprise()), ...(canShare ? [act('menu_share', () => this.#habits.share())] : []), act('menu_keys', () => this.#habits.keys()));
    byId('room-acts').after(el('div', { class: 'room-choices' }, lengthChoices(), languageMenu('language', ROOM_KEY)));
    this.#listen();
  }

  /** Shows the chair of the address, of the page around, or the last one here; else the first on offer. */
  async begin() {
    session.look({ ...this.#picture.size, scheme: scheme.shown });
    this.#sizes.begin();
    this.#controls.update(session.view);
    showHints(byId('kinds').parentElement ?? document.body, ['hint_knobs', 'hint_picture', 'hint_undo_room']);
    const isSecond = await this.#keeper.claim();
    embed.on('wish', (wish) => this.#grant(wish));
    const shown = (await this.openLink()) || (await this.#grant(embed.wish)) || (await this.#openDesign((await this.#keeper.fromStore())?.design));
    if (!shown) this.#openOffer(0);
    // A page of the maker's own may show several.
    if (isSecond && window.parent === window) notices.tell('tabs', say('tab_second'));
    if (this.#showroom.price === 'from' && !this.#read.is_published) this.#findFrom();
  }

  get #offer() {
    return /** @type {Offer} */ (this.#read.offers[this.#place]);
  }

  // ---- What is shown ----

  /** @param {('report' | 'picture')[]} want @returns {LookRequest & Record<string, unknown>} */
  #request(want) {
    const isNew = want.includes('report');
    return {
      ...this.#around(),
      offer: this.#place,
      design: isNew ? session.design : session.built,
      view: session.view,
      want: want.map((what) => (what === 'report' ? 'seen' : what)),
    };
  }

  #around() {
    return { showroom: this.#showroom, shop: this.#shop };
  }

  /** @param {Answer<Looked>} answer @param {LookRequest} request */
  #show(answer, { design, offer }) {
    if (offer !== this.#place) return this.#stepper.design();
    if (answer.error) return this.#refuse(answer.error);
    const { picture, seen, dimensions } = answer.ok;
    if (picture !== undefined) {
      this.#picture.update(picture);
      this.#sizes.show(dimensions);
    }
    if (!seen) return this.#describe();
    session.built = design;
    this.#seen = seen;
    this.#banner.clear();
    this.#panel.clash([]);
    this.#picture.stale(false);
    this.#label.update(seen, this.#showroom.price !== 'none');
    this.#advice.update(seen);
    this.#describe();
    this.#keeper.keep({ design, name: '' });
    this.#tellAround();
    markReady();
  }

  #describe() {
    if (this.#seen) this.#picture.describe(pictureWords(this.#offer.name, this.#offer.kind, session.view, this.#seen.overall));
  }

  /** @param {Refusal} refusal */
  #refuse(refusal) {
    if (refusal.where === 'worker') return;
    this.#picture.stale(true);
    const knobs = (refusal.knobs ?? []).filter((knob) => session.knobs.has(knob));
    this.#panel.clash(knobs);
    this.#banner.update({ ...refusal, knobs });
    this.#findSoon();
    markReady();
  }

  /** What works and can be chosen here. */
  async #findNearest() {
    const { design } = session;
    if (design === session.built) return;
    const answer = await bridge.ask('nearest', { design, ...this.#around() });
    if (design !== session.design) return;
    const mend = answer.ok && { ...answer.ok, say: '' };
    const allowed = mend && (await bridge.ask('offerOf', { ...this.#around(), design: { ...design, [mend.knob]: mend.value }, offer: this.#place }));
    if (design !== session.design) return;
    if (mend && allowed?.ok === this.#place) this.#banner.offer(mend);
    else this.#banner.lost('');
  }

  // ---- What is wanted ----

  /** @param {number} place @param {Design} [design] of that offer */
  #openOffer(place, design) {
    this.#place = place;
    const offer = this.#offer;
    session.built = offer.design;
    session.open(offer.knobs, { ...offer.design, ...design });
    this.#habits.undo.note();
    this.#kinds.update(String(place));
    this.#panel.lay(offer.knobs);
    this.#panel.update(session.design);
    this.#sizes.renew();
    this.#banner.clear();
    this.#stepper.design();
    return true;
  }

  /** @param {Design | undefined} design @param {boolean} [told] whether it is said why it is not shown */
  async #openDesign(design, told = false) {
    if (!design) return false;
    const answer = await bridge.ask('offerOf', { ...this.#around(), design, offer: this.#place });
    if (answer.ok !== undefined) return this.#openOffer(answer.ok, design);
    if (told) notices.tell('link', say('offered_not', { offer: this.#offer.name, why: answer.error.why }), { stays: true });
    return false;
  }

  /** The chair in the address; other fragments are none of ours. */
  async openLink() {
    if (!location.hash.startsWith('#design/')) return false;
    return this.#openDesign(await this.#keeper.fromLink(), true);
  }

  /** A design that somebody saved; what else may be dropped is none of ours. @param {File} file */
  async #openFile(file) {
    const read = await readFile(file, async () => ({ error: { where: 'file', why: say('open_no_pdf') } }));
    const answer = 'why' in read ? { error: { where: 'file', why: read.why } } : await bridge.ask('readDesign', read.text);
    if (answer.error) notices.tell('open', say('open_failed', { file: calledFile(file), why: answer.error.why }), { stays: true });
    else await this.#openDesign(answer.ok?.design, true);
  }

  /** What the page around wishes. @param {Wish} wish */
  async #grant({ offer, family, design, scheme: wished, colours }) {
    if (colours) dress.host(colours);
    if (wished) scheme.choose(wished, { stays: false });
    if (design) {
      const answer = await bridge.ask('readLink', design.replace(/^[^#]*#/, ''));
      if (answer.error) notices.tell('link', say('link_broken', { why: answer.error.why }), { stays: true });
      else if (await this.#openDesign(answer.ok.design, true)) return true;
    }
    const named = this.#read.offers.findIndex(({ name }) => name === offer);
    const alike = this.#read.offers.findIndex(({ design: begins }) => begins.family === family);
    const place = named >= 0 ? named : alike;
    return place >= 0 && this.#openOffer(place);
  }

  /** @param {{ name: string, value: Value }} change */
  #turn({ name, value }) {
    session.set(name, value);
    this.#habits.undo.note(name);
    this.#panel.refresh(session.design);
    this.#sizes.turned(session.design);
    this.#stepper.design();
  }

  /** @param {{ name: string, value: Value }} change */
  #turnOnPicture(change) {
    this.#panel.turn(change.name, change.value);
    this.#turn(change);
  }

  /** All lengths on the page are written anew. */
  #rewrite() {
    this.#panel.renew();
    this.#panel.update(session.design);
    this.#sizes.renew();
    if (this.#seen) {
      this.#label.update(this.#seen, this.#showroom.price !== 'none');
      this.#advice.update(this.#seen);
    }
    this.#describe();
    this.#look({});
  }

  /** @param {Parameters<Session['look']>[0]} change */
  #look(change) {
    session.look(change);
    this.#controls.update(session.view);
    this.#picture.apart(session.view.spread);
    if (session.knobs.size > 0) this.#stepper.view();
  }

  /** What a chair is drawn from: the present offer as it begins, within the knobs that are open. */
  #drawnFrom() {
    const { knobs, design: first } = this.#offer;
    const offer = this.#place;
    const given = knobs.filter(({ group }) => group === 'use').map(({ name }) => [name, session.design[name]]);
    /** @param {Bridge} aside @param {Design} design */
    const fails = async (aside, design) => {
      const answer = await aside.ask('lookAt', { ...this.#around(), offer, design, view: session.view, want: ['seen'] });
      return answer.error ? answer.error.why : (answer.ok.seen?.concerns.find(({ verdict }) => verdict === 'fails')?.plain ?? '');
    };
    return { begins: { ...first, ...Object.fromEntries(given) }, knobs, fails };
  }

  /** Prices "from" of a preview, which are worked out when the folder is published. */
  async #findFrom() {
    const answer = await bridge.ask('publishShowroom', this.#around());
    if (answer.error) return notices.tell('from', say('preview_from', { where: answer.error.where, why: answer.error.why }), { stays: true });
    this.#showroom = answer.ok.showroom;
    this.#stepper.design();
  }

  // ---- The quote ----

  /** @returns {Promise<Shown | undefined>} */
  async #shown() {
    const seen = this.#seen;
    const design = session.built;
    const answer = await bridge.ask('writeToldLink', { design, label: seen?.label });
    if (!seen || answer.error) return undefined;
    const label = seen.label ?? null;
    const fragment = answer.ok;
    return { link: `${location.href.split('#')[0]}#${fragment}`, fragment, offer: this.#offer.name, design, label, price: label && priceWords(label) };
  }

  async #tellAround() {
    const design = session.built;
    const shown = await this.#shown();
    if (shown && design === session.built) embed.change(shown);
  }

  /** @param {Wanted} wanted */
  async #write(wanted) {
    this.#wanted = wanted;
    const [shown, seen] = [await this.#shown(), this.#seen];
    if (!shown || !seen) return;
    const { count, customer } = wanted;
    const words = askWords({ offer: shown.offer, count, customer, choices: this.#choices(), overall: seen.overall, price: shown.price, link: shown.link });
    this.#ask.update({ ...words, order: this.#order(shown, seen) });
  }

  /** What differs from the offer as it begins, a line each. */
  #choices() {
    const changed = this.#offer.knobs.filter((knob) => applies(knob, session.built) && session.built[knob.name] !== knob.default);
    return changed.map((knob) => say('pair', { name: knob.label, value: knobValue(knob, session.built[knob.name] ?? '') }));
  }

  /** @param {Shown} shown @param {Seen} seen @returns {Order} */
  #order({ offer, design, label }, { overall: { width, depth, height } }) {
    const { count: quantity, customer } = this.#wanted;
    const told = { offer, size: { width, depth, height }, ...(label && { label: { way: /** @type {'from' | 'shown'} */ (label.from ? 'from' : 'shown'), currency: label.currency, minor: label.price_minor } }) };
    return { crestrail: 'order/2', name: offer, customer, lines: [{ name: offer, quantity, knobs: design, told }] };
  }

  /** @param {{ address: string, letter: Letter }} mail */
  async #mail({ address, letter: { subject, lines, order } }) {
    const shown = await this.#shown();
    const handled = shown && (await embed.ask({ ...shown, subject, body: lines.join('\n'), order }));
    if (!handled) location.href = address;
  }

  // ---- Who hears whom ----

  #listen() {
    this.#stepper.on('busy', (busy) => this.#label.busy(busy));
    this.#stepper.on('stepped', ({ answer, request }) => this.#show(/** @type {any} */ (answer), /** @type {any} */ (request)));
    this.#panel.on('change', (change) => this.#turn(change));
    this.#panel.on('help', (wanted) => this.#habits.help(wanted));
    this.#kinds.on('choose', (place) => this.#openOffer(Number(place)));
    this.#kinds.on('near', () => ready.then(() => drawOffers(bridge, this.#kinds, (offer) => ({ ...this.#around(), offer, design: this.#read.offers[offer]?.design ?? {} }))));
    this.#banner.on('mend', ({ knob, value }) => this.#openOffer(this.#place, { ...session.design, [knob]: value }));
    this.#banner.on('back', () => this.#openOffer(this.#place, session.built));
    this.#banner.on('knob', (knob) => this.#panel.focus(knob));
    this.#advice.on('knob', (knob) => this.#panel.focus(knob));
    this.#label.on('ask', () => this.#ask.open());
    this.#ask.on('changed', (wanted) => this.#write(wanted));
    this.#ask.on('mail', (mail) => this.#mail(mail));
    this.#keeper.on('refused', () => notices.tell('store', say('store_refused_here'), { stays: true }));
    this.#keeper.on('corrupt', (what) => this.#habits.tellCorrupt('store', say('store_corrupt', what), what.key));
    this.#keeper.on('link', (why) => notices.tell('link', say('link_broken', { why }), { stays: true }));
    this.#listenToView();
    onLengths(() => this.#rewrite());
    scheme.on('change', (shown) => this.#look({ scheme: shown }));
    bridge.on('restarted', (why) => {
      notices.tell('worker', say('worker_restarted', { why }), { stays: true });
      this.#openOffer(this.#place, session.built);
    });
    addEventListener('hashchange', () => this.openLink());
    listenForDrops(document.documentElement, (file) => this.#openFile(file), (text) => this.#grant({ design: /#(design\/\S+)/.exec(text)?.[1] ?? text.trim() }));
  }

  #listenToView() {
    this.#picture.on('turn', ({ turn, tilt }) => this.#look({ turn: session.view.turn + turn, tilt: session.view.tilt + tilt }));
    this.#picture.on('spread', (by) => this.#look({ spread: session.view.spread + by }));
    this.#picture.on('size', (size) => this.#look(size));
    this.#controls.on('turn', (turn) => this.#look({ turn }));
    this.#controls.on('spread', (spread) => this.#look({ spread }));
    this.#controls.on('look', (at) => this.#look(at));
    this.#controls.on('glide', (to) => {
      this.#stopGlide();
      this.#stopGlide = glide(session.view.spread, to, (spread) => this.#look({ spread }));
    });
  }
}

/** The showroom's file, read; a fault in it is said in the place of the chair. @returns {Promise<ShowroomRead | undefined>} */
async function readShowroom() {
  let text;
  try {
    text = await showroomText();
  } catch (why) {
    fault(say('showroom_absent', { why: String(why) }));
    return undefined;
  }
  const answer = await bridge.ask('readShowroom', text);
  // What the core itself meets is told by `lost`.
  if (answer.error && answer.error.where !== 'worker') fault(say('showroom_fault', { where: answer.error.where, why: answer.error.why }));
  return answer.ok;
}

/** @param {string} words */
function fault(words) {
  setText(byId('loading'), words);
  document.documentElement.dataset.fault = '';
}

async function start() {
  // Letters belong to the bench.
  session.letters = false;
  fillWords(document);
  if (!isPublished) byId('head-acts').append(el('a', { class: 'plain-button back-link', href: 'index.html', text: say('workshop_back') }));
  if (embed.wish.colours) dress.host(embed.wish.colours);
  const read = await readShowroom();
  if (!read) return false;
  if (languageOf(read.language) === speech.code) speak(read.language);
  lengths.suggest(read.lengths);
  const mute = languageLost();
  if (mute) notices.tell('language', mute, { stays: true });
  document.title = say('pair', { name: read.brand, value: say('choose') });
  dress.own(read.colours);
  const { shop, why } = await book(bridge);
  if (why) notices.tell('shop', say('preview_shop', { why }), { stays: true });
  await new Room(read, shop).begin();
  return true;
}

dress.scheme(scheme.shown);
scheme.on('change', (shown) => dress.scheme(shown));
bridge.on('lost', tellTrouble);
start().then(
  // What does not work is not kept for later.
  async (works) => {
    if (works) await new Offline().start();
  },
  (why) => tellTrouble(String(why)),
);
