// The one module that knows the others: tells the widgets what is, and hears from them what is wanted.
import { Assembly } from './assembly.js';
import { Banner } from './banner.js';
import { BenchHabits } from './bench-habits.js';
import { BenchSteps } from './bench-steps.js';
import { BenchStepsWork } from './bench-steps-work.js';
import { Bridge } from './bridge.js';
import { CheckInWork } from './checkin-work.js';
import { CuttingList } from './cutting-list.js';
import { DimensionDesk, onLengths } from './dimension-desk.js';
import { calledFile, download, fileStem, listenForDrops, readFile } from './design-file.js';
import { byId, debounce } from './dom.js';
import { ExportWork } from './export-work.js';
import { Exports } from './exports.js';
import { Findings, remarkOf } from './findings.js';
import { Fit } from './fit.js';
import { FitWork } from './fit-work.js';
import { glide } from './glide.js';
import { showHints } from './hints.js';
import { Head } from './head.js';
import { Joints } from './joints.js';
import { Keeper } from './keeper.js';
import { drawKinds } from './kind-drawings.js';
import { KindTables } from './kind-tables.js';
import { Kinds, turnedWords } from './kinds.js';
import { KnobPanel } from './knob-panel.js';
import { languageLost } from './language-lost.js';
import { Lights } from './lights.js';
import { Notices } from './notices.js';
import { Offline } from './offline.js';
import { OrderBook } from './order-book.js';
import { OrderDesk } from './order-desk.js';
import { OrderWork } from './order-work.js';
import { printQuote, saveOrder, showBreaks, showMoves, writeQuote } from './orders.js';
import { Picture } from './picture.js';
import { Price } from './price.js';
import { laidOut, markReady, Printing, ready } from './printing.js';
import { SawingWork } from './sawing-work.js';
import { Scheme } from './scheme.js';
import { SafeRanges } from './safe-ranges.js';
import { Session } from './session.js';
import { SheetList } from './sheet-list.js';
import { SheetWork } from './sheet-work.js';
import { Solids } from './solids.js';
import { SolidsWork } from './solids-work.js';
import { served } from './start-worker.js';
import { Stepper } from './stepper.js';
import { Summary } from './summary.js';
import { Tabs } from './tabs.js';
import { tellTrouble } from './trouble.js';
import { pictureWords, ViewControls } from './view-controls.js';
import { fillWords, say } from './words.js';
import { bringShop, bringShowroom, kindOf, openShop, openShowroom } from './workshop.js';

/** @import { Answer, Design, Refusal, Report, Stepped, StepRequest, Value } from './messages.d.ts' */

const bridge = new Bridge();
fillWords(document);

const session = new Session();
const scheme = new Scheme();
session.look({ scheme: scheme.shown });

const notices = new Notices(byId('notices'));
const head = new Head(byId('head'), scheme.choice);
const picture = new Picture(byId('picture'));
const controls = new ViewControls(byId('view-rulers'), byId('view-buttons'), byId('tint-buttons'));
const summary = new Summary(byId('summary'));
const cutting = new CuttingList();
const joints = new Joints();
const benchSteps = new BenchSteps();
const assembly = new Assembly(benchSteps.container);
const price = new Price();
const sheets = new SheetList();
const fit = new Fit((knob) => session.labelOf(knob));
const findings = new Findings((knob) => session.labelOf(knob));
const lists = /** @type {const} */ ({ cutting, joints, assembly, price, sheets, fit, findings });
const tabs = new Tabs(byId('lists'), say('lists'), [
  { key: 'cutting', name: say('tab_cutting'), panel: cutting.container },
  { key: 'joints', name: say('tab_joints'), panel: joints.container },
  { key: 'assembly', name: say('tab_assembly'), panel: assembly.container },
  { key: 'price', name: say('tab_price'), panel: price.container },
  { key: 'sheets', name: say('tab_sheets'), panel: sheets.container },
  { key: 'fit', name: say('tab_fit'), panel: fit.container },
  { key: 'findings', name: say('tab_findings'), panel: findings.container },
]);
const solids = new Solids();
const exporting = new Exports(byId('exports'), solids.container);
const printing = new Printing(byId('print-head'));
const lights = new Lights();
const keeper = new Keeper(bridge);
const kinds = new Kinds(byId('kinds'));
const tables = new KindTables(bridge);
const panel = new KnobPanel(byId('knobs'));
const banner = new Banner(byId('banner'), session.knobs);
const ranges = new SafeRanges(bridge);
byId('kinds').before(ranges.container);
const book = new OrderBook();
const ordering = new OrderWork(bridge, session, price, book, (family) => kinds.labelOf(family));
const desk = new OrderDesk({ bridge, session, notices, price, book, ordering, show: open, checkIn: (text) => checkin.check(text) });
const habits = new BenchHabits(
  {
    session,
    notices,
    show: ({ design, name }) => open(design, name),
    save: saveDesign,
    picture: async (design, view) => (await bridge.ask('step', { design, view, want: ['picture'], shop: session.shop })).ok?.picture,
    address: () => keeper.address(session.built),
  },
  bridge,
  tables,
);
const checkin = new CheckInWork(bridge, session, habits, openCheckedIn);
byId('undo').append(habits.undo.container);
const offline = new Offline();
const stepper = new Stepper(bridge, (want) => ({
  // While the knobs stand at what cannot be built, the last chair that could be is turned.
  design: want.includes('report') ? session.design : session.built,
  view: session.view,
  want,
  leave: findings.open ? [] : ['sound'],
  shop: session.shop,
}));

const sizes = new DimensionDesk({ picture, session, look, turn: turnOnPicture });

let stopGlide = () => {};
let openings = 0;

// ---- What is shown ------------------------------------------------------------------------------

/** @param {{ answer: Answer<Stepped>, request: StepRequest }} stepped */
function show({ answer, request }) {
  if (answer.ok) showBuilt(answer.ok, request.design);
  else refuse(answer.error);
}

/** @param {Stepped} stepped @param {Design} design */
function showBuilt({ picture: svg, report, dimensions }, design) {
  if (svg !== undefined) {
    picture.update(svg);
    sizes.show(dimensions, report?.assembly.map(({ title }) => title));
  }
  if (!report) return describe();
  session.built = design;
  session.report = report;
  banner.clear();
  panel.clash([]);
  picture.stale(false);
  summary.update(report);
  lists[/** @type {keyof typeof lists} */ (tabs.shown)].update(report);
  ordering.show();
  solids.update();
  if (tabs.shown === 'assembly') benchSteps.update();
  tabs.remark('findings', remarkOf(report));
  tabs.leaveOut('fit', !report.fit);
  tabs.leaveOut('assembly', !report.assembly?.length);
  describe();
  keeper.keep({ design, name: session.name });
  if (design === session.design) ranges.start(design, session.shop, session.knobs.size);
  markReady();
}

/** Asks for the checks that are sound too, which steps leave out while nobody looks at them. */
async function tellSound() {
  const stays = session.watch();
  const { ok } = await bridge.ask('step', { design: session.built, view: session.view, want: ['report'], shop: session.shop });
  if (!ok?.report || !stays()) return;
  session.report = ok.report;
  findings.update(ok.report);
}

/** @param {Refusal} refusal */
function refuse(refusal) {
  if (refusal.where === 'worker') return;
  if (session.knobs.has(refusal.where)) panel.complain(refusal.where, refusal.why);
  picture.stale(true);
  ranges.stop();
  panel.forget();
  sizes.forget();
  const knobs = refusal.knobs ?? (session.knobs.has(refusal.where) ? [refusal.where] : []);
  panel.clash(knobs);
  banner.update({ ...refusal, knobs });
  if (!refusal.mend) findNearestSoon();
  markReady();
}

/** Says in words what the picture shows. */
function describe() {
  if (session.report) picture.describe(pictureWords(session.name, kinds.labelOf(session.built.family), session.view, session.report.overall));
}

/** Shows a whole design at once, with the knobs of its kind; the latest wins. @param {Design} design @param {string} [name] */
async function open(design, name) {
  const opening = ++openings;
  const table = await tables.of(design);
  if (!table || opening !== openings) return;
  session.open(table, design, name);
  // First of all, since it measures.
  sizes.renew();
  habits.undo.note();
  head.update(session.name);
  printing.update(session.name);
  kinds.update(session.design.family);
  panel.lay(table);
  panel.update(session.design);
  panel.forget();
  ranges.stop();
  stepper.design();
}

/** @param {string} key of the notice @param {string} words what was done @param {{ design: Design, name: string }} before */
function tellUndo(key, words, { design, name }) {
  notices.tell(key, words, { action: { words: say('undo'), act: () => open(design, name) } });
}

/** @param {Parameters<Session['look']>[0]} change */
function look(change) {
  session.look(change);
  controls.update(session.view);
  picture.apart(session.view.spread);
  if (session.knobs.size > 0) stepper.view();
}

// ---- What is wanted -----------------------------------------------------------------------------

/** @param {{ name: string, value: Value }} change */
function turnKnob({ name, value }) {
  session.set(name, value);
  habits.undo.note(name);
  panel.refresh(session.design);
  panel.forget(name);
  sizes.turned(session.design);
  sizes.forget(name);
  ranges.stop();
  stepper.design();
}

/** @param {{ name: string, value: Value }} change */
function turnOnPicture(change) {
  panel.turn(change.name, change.value);
  turnKnob(change);
}

/** All lengths on the page are written anew. */
function rewrite() {
  cutting.renew();
  panel.renew();
  panel.update(session.design);
  sizes.renew();
  if (session.report) {
    summary.update(session.report);
    lists[/** @type {keyof typeof lists} */ (tabs.shown)].update(session.report);
  }
  describe();
  look({});
}

/** @param {string} knob @param {Value} value */
async function mend(knob, value) {
  await open({ ...session.design, [knob]: value });
  panel.focus(knob);
}

/** Turns the design into another kind of chair. @param {string} family */
async function chooseKind(family) {
  const { design, name, changed } = session;
  const before = new Map(session.knobs);
  const answer = await tables.turn(design, family);
  if (answer.error) {
    kinds.update(design.family);
    return notices.tell('kind', say('kind_failed', { why: answer.error.why }), { stays: true });
  }
  await open(answer.ok.design);
  const rowsOf = (/** @type {string} */ knob) => ({ was: before.get(knob), now: session.knobs.get(knob) });
  tellUndo('kind', turnedWords(kinds.labelOf(family), answer.ok.dropped, changed, rowsOf), { design, name });
}

/** Looks for a remedy when the knobs have come to rest, not at each step of a drag. */
const findNearestSoon = debounce(150, findNearest);

async function findNearest() {
  const { design } = session;
  // What was built before may be what is refused: with another book.
  if (banner.container.hidden) return;
  const answer = await bridge.ask('nearest', { design, shop: session.shop });
  if (design !== session.design) return;
  if (answer.ok) banner.offer({ say: '', ...answer.ok });
  else banner.lost(answer.error.why);
}

function reset() {
  const { design, name } = session;
  open(session.defaults(), '');
  tellUndo('reset', say('reset_done'), { design, name });
}

/** @param {string} name */
function rename(name) {
  session.name = name;
  habits.undo.note();
  printing.update(name);
  describe();
  keeper.keep({ design: session.built, name });
}

/** @param {File} file */
async function openFile(file) {
  const called = calledFile(file);
  const fail = (/** @type {string} */ why) => notices.tell('open', say('open_failed', { file: called, why }), { stays: true });
  const read = await readFile(file, (bytes) => bridge.ask('readAttached', bytes));
  if ('why' in read) return fail(read.why);
  const shelved = await habits.bring(read.text);
  if (shelved) return notices.tell('open', shelved);
  const kind = kindOf(read.text);
  if (kind === 'shop') return useShop(read.text, called);
  if (kind === 'showroom') return useShowroom(read.text, called);
  if (kind === 'order') return desk.open(read.text, fail);
  const answer = await bridge.ask('readDesign', read.text);
  if (answer.error) return fail(answer.error.why);
  const { design, name = '', notes = [] } = answer.ok;
  const before = { design: session.design, name: session.name };
  await open(design, name);
  tellUndo('open', [say('open_done', { name: session.name || called }), ...notes].join(' '), before);
}

/** @param {string} text @param {string} file */
async function useShop(text, file) {
  const { words, good } = await openShop(bridge, session, text, file);
  notices.tell('open', words, { stays: !good });
  if (good) stepper.design();
}

/** @param {string} text @param {string} file */
async function useShowroom(text, file) {
  const { words, good } = await openShowroom(bridge, session, text, file);
  const see = { words: say('showroom_see'), act: () => location.assign('showroom.html') };
  notices.tell('open', words, good && served ? { action: see } : { stays: !good });
}

/** @param {{ design: Design, name: string, quantity: number, customer: string }} line of what a customer sent */
async function openCheckedIn({ design, name, quantity, customer }) {
  const before = { design: session.design, name: session.name };
  await open(design, name);
  price.quote.fill({ quantity, customer });
  tellUndo('open', say('open_done', { name: session.name || say('design_unnamed') }), before);
}

async function saveDesign() {
  const answer = await bridge.ask('writeDesign', { design: session.design, name: session.name });
  if (answer.error) return notices.tell('save', say('file_failed', { why: answer.error.why }), { stays: true });
  const file = `${fileStem(session.name)}.design.json`;
  download({ name: file, type: 'application/json', bytes: answer.ok });
  notices.tell('save', say('save_done', { file }));
}

async function copyLink() {
  const address = await keeper.address(session.built);
  history.replaceState(history.state, '', address);
  try {
    await navigator.clipboard.writeText(address);
    notices.tell('link', say('link_copied'));
  } catch {
    notices.tell('link', say('link_here'));
  }
}

/** Prints on white paper, whatever the scheme on screen. */
async function print() {
  document.documentElement.dataset.scheme = 'light';
  const view = { ...session.view, ...printing.picture };
  const answer = await bridge.ask('step', { design: session.built, view, want: ['picture'], shop: session.shop });
  if (answer.ok?.picture) picture.update(answer.ok.picture);
  await laidOut();
  window.print();
}

/** @param {boolean} started */
function preparePrint(started) {
  if (started && session.report) Object.values(lists).forEach((list) => list.update(/** @type {Report} */ (session.report)));
  joints.print(started);
  if (started) return;
  document.documentElement.dataset.scheme = scheme.shown;
  look({});
}

// ---- Who hears whom -----------------------------------------------------------------------------

function listen() {
  stepper.on('stepped', show);
  stepper.on('busy', (busy) => summary.busy(busy));
  panel.on('change', turnKnob);
  panel.on('help', (wanted) => habits.help(wanted));
  ranges.on('found', ({ ranges: found, failing }) => {
    panel.holds(found, failing);
    sizes.holds(found, failing);
  });
  onLengths(rewrite);
  kinds.on('choose', chooseKind);
  kinds.on('near', () => ready.then(() => drawKinds(bridge, kinds)));
  banner.on('mend', ({ knob, value }) => mend(knob, value));
  banner.on('back', () => open(session.built));
  banner.on('knob', (knob) => panel.focus(knob));
  findings.on('knob', (knob) => panel.focus(knob));
  findings.on('wanted', tellSound);
  fit.on('knob', (knob) => panel.focus(knob));
  new FitWork(session, fit, notices, async (design, words, before) => {
    await open(design);
    tellUndo('fit', words, before);
  });
  listenToHead();
  listenToView();
  listenToLists();
  listenToRest();
}

function listenToHead() {
  head.on('name', rename);
  head.on('open', openFile);
  head.on('save', saveDesign);
  head.on('link', copyLink);
  head.on('reset', reset);
  habits.hear(head);
  head.on('checkin', () => checkin.open());
  head.on('scheme', (choice) => scheme.choose(choice));
  scheme.on('change', (shown) => {
    look({ scheme: shown });
    price.sawing.redraw();
  });
  listenForDrops(document.documentElement, openFile, (text) => checkin.check(text));
}

function listenToView() {
  picture.on('turn', ({ turn, tilt }) => look({ turn: session.view.turn + turn, tilt: session.view.tilt + tilt }));
  picture.on('spread', (by) => look({ spread: session.view.spread + by }));
  picture.on('size', (size) => look(size));
  picture.on('hover', (letter) => lights.hover(letter ? [letter] : []));
  picture.on('tap', (letter) => lights.tap(letter));
  controls.on('turn', (turn) => look({ turn }));
  controls.on('spread', (spread) => look({ spread }));
  controls.on('look', (at) => look(at));
  controls.on('colour', (colour) => look({ colour }));
  controls.on('letters', (letters) => {
    session.letters = letters;
    look({});
  });
  controls.on('glide', (to) => {
    stopGlide();
    stopGlide = glide(session.view.spread, to, (spread) => look({ spread }));
  });
}

function listenToLists() {
  for (const source of [cutting.table, price]) {
    source.on('hover', (letters) => lights.hover(letters));
    source.on('tap', (letter) => lights.tap(letter));
    source.on('pick', (letters) => lights.pick(letters));
  }
  for (const source of [joints, assembly]) {
    source.on('hover', (letters) => lights.hover(letters));
    source.on('tap', (letter) => lights.tap(letter));
  }
  listenToOrder();
  new SheetWork(bridge, session, sheets);
  new BenchStepsWork(bridge, session, benchSteps);
  price.moves.on('wanted', () => showMoves(session, price));
  price.moves.on('knob', (knob) => panel.focus(knob));
  new SawingWork(session, price.sawing, (wish) => ordering.sawn(wish));
  lights.on('change', (lit) => {
    picture.light(lit);
    for (const target of [cutting.table, price, joints, assembly]) target.light(lit);
  });
  tabs.on('shown', (key) => {
    if (session.report) lists[/** @type {keyof typeof lists} */ (key)].update(session.report);
    if (session.report) ordering.show();
    if (key === 'assembly') benchSteps.update();
    lights.tell();
  });
}

function listenToOrder() {
  const { quote } = price;
  quote.on('quote', (wish) => printQuote(session, price, ordering.wanted(wish), wish));
  quote.on('page', (wish) => writeQuote(session, price, ordering.wanted(wish), wish));
  quote.on('order', (wish) => saveOrder(price, ordering.wanted(wish)));
  quote.on('prices', (wish) => showBreaks(session, price, ordering.wanted(wish), ordering.watch()));
  book.on('refused', () => notices.tell('store', say('store_refused'), { stays: true }));
  book.on('elsewhere', () => notices.tell('order', say('order_elsewhere')));
  book.on('gone', () => notices.tell('order', say('order_elsewhere_gone'), { stays: true }));
  book.on('corrupt', (what) => habits.tellCorrupt('order', say('order_corrupt', what), what.key));
}

function listenToRest() {
  new ExportWork(session, exporting);
  new SolidsWork(bridge, session, solids, exporting);
  exporting.on('print', print);
  keeper.on('refused', () => notices.tell('store', say('store_refused'), { stays: true }));
  keeper.on('corrupt', (what) => habits.tellCorrupt('store', say('store_corrupt', what), what.key));
  keeper.on('link', (why) => notices.tell('link', say('link_broken', { why }), { stays: true }));
  bridge.on('restarted', restarted);
  bridge.on('lost', lost);
  // What is made now says more.
  offline.on('ready', () => exporting.job.runs || exporting.update(say('offline_ready')));
  offline.on('update', (take) => notices.tell('update', say('update_ready'), { stays: true, action: { words: say('update_take'), act: take } }));
  addEventListener('beforeprint', () => preparePrint(true));
  addEventListener('afterprint', () => preparePrint(false));
  addEventListener('hashchange', openLink);
}

/** The design that stopped the core is left for the last that was built. @param {string} why */
function restarted(why) {
  notices.tell('worker', say('worker_restarted', { why }), { stays: true });
  open(session.built);
}

/** Before the first chair there is nothing to lose; after it the page stays as it is until it is tried again. @param {string} why */
function lost(why) {
  if (document.documentElement.dataset.ready === undefined) return void tellTrouble(why);
  const act = () => {
    bridge.revive();
    stepper.design();
  };
  notices.tell('worker', say('worker_lost', { why }), { stays: true, action: { words: say('try_again'), act } });
}

// ---- The start ----------------------------------------------------------------------------------

/** Opens what the address holds, if it holds a design; the own one is put aside. */
async function openLink() {
  const linked = await keeper.fromLink();
  if (!linked) return false;
  const own = await keeper.fromStore();
  const differs = own && JSON.stringify(own.design) !== JSON.stringify(linked);
  await open(linked, differs ? '' : own?.name);
  if (differs && keeper.putOwnAside()) offerOwn();
  return true;
}

function offerOwn() {
  const act = async () => {
    const own = await keeper.fromBeforeLink();
    if (own) open(own.design, own.name);
  };
  notices.tell('own', say('link_opened'), { action: { words: say('link_bring_back'), act } });
}

async function start() {
  listen();
  showHints(byId('kinds').parentElement ?? document.body, ['hint_knobs', 'hint_picture', 'hint_undo']);
  const isSecond = await keeper.claim();
  const answer = await bridge.ask('families', null);
  // Nothing else can go wrong with it than the core itself, which is told by `lost`.
  if (answer.error) return false;
  kinds.list(answer.ok);
  session.look({ ...picture.size });
  sizes.begin();
  controls.update(session.view);
  const mute = languageLost();
  if (mute) notices.tell('language', mute, { stays: true });
  const wrong = await bringShop(bridge, session);
  if (wrong) habits.tellCorrupt('shop', wrong.words, wrong.key);
  const wrongRoom = await bringShowroom(bridge, session);
  if (wrongRoom) habits.tellCorrupt('showroom', wrongRoom.words, wrongRoom.key);
  if (!(await openLink())) {
    const own = await keeper.fromStore();
    await open(own?.design ?? {}, own?.name ?? '');
  }
  if (isSecond) notices.tell('tabs', say('tab_second'));
  else await habits.load(() => habits.takeIn(keeper));
  return true;
}

start().then(
  // What does not work is not kept for later.
  (works) => (works ? offline.start() : undefined),
  (why) => tellTrouble(String(why)),
);
