import { el, setText } from './dom.js';
import { knobValue, money, number, wholeLength } from './format.js';
import { applies } from './knob-rules.js';
import { Job } from './job.js';
import { madeDialog } from './made-dialog.js';
import { laidOut } from './printing.js';
import { around, drawn, frame, putSmall, SMALL_VIEW } from './thumbnail.js';
import { say } from './words.js';

/** @import { Bridge } from './bridge.js' */
/** @import { KindTables } from './kind-tables.js' */
/** @import { Design, Knob, Report, View } from './messages.d.ts' */
/** @import { Session } from './session.js' */

/** @typedef {{ name: string, design: Design }} Named */
/** @typedef {{ label: string, cells: string[] }} Row */
/** @typedef {Named & { table: Knob[], picture?: string, report?: Report, why?: string }} Told */

/** Two to four designs side by side: pictures to one scale, what differs, and the price. */
export class Compare {
  #bridge;
  #tables;
  #session;
  #state = el('p', { class: 'list-note', role: 'status' });
  #job = new Job(say('compare'), (words) => setText(this.#state, words));
  #table = el('table', { class: 'compare-table' });
  #same = el('details', { class: 'compare-same' });
  #dialog;
  /** @type {Named[]} */
  #designs = [];

  /** @param {Bridge} bridge @param {KindTables} tables @param {Session} session */
  constructor(bridge, tables, session) {
    this.#bridge = bridge;
    this.#tables = tables;
    this.#session = session;
    const print = el('button', { type: 'button', class: 'plain-button', text: say('compare_print'), onclick: () => this.#print() });
    this.#dialog = madeDialog('compare', say('compare'), el('div', { class: 'shelf-acts' }, print), this.#state, this.#job.container, el('section', { class: 'compare-scroll', tabindex: '0', 'aria-label': say('compare') }, this.#table), this.#same);
    this.#dialog.addEventListener('close', () => this.#job.giveWay());
  }

  /** @param {Named[]} designs */
  async open(designs) {
    this.#designs = designs;
    this.#table.replaceChildren();
    this.#same.replaceChildren();
    if (!this.#dialog.open) this.#dialog.showModal();
    await this.#show(this.#session.view.scheme);
  }

  /** @param {View['scheme']} scheme of the pictures */
  async #show(scheme) {
    const designs = this.#designs;
    const told = await this.#job.run(say('compare_working'), async ({ signal, report }) => {
      /** @type {Told[]} */
      const all = [];
      for (const named of designs) {
        if (signal.aborted) break;
        all.push(await this.#ask(named, scheme));
        report({ done: all.length, total: designs.length, words: '' });
      }
      return all;
    });
    if (!told) return;
    this.#lay(told);
    setText(this.#state, say('compare_note'));
  }

  /** @param {Named} named @param {View['scheme']} scheme @returns {Promise<Told>} */
  async #ask({ name, design }, scheme) {
    const { shop } = this.#session;
    const table = (await this.#tables.of(design)) ?? [];
    const whole = { ...Object.fromEntries(table.map((knob) => [knob.name, knob.default])), ...design };
    const answer = await this.#bridge.ask('step', { design: whole, shop, view: { ...SMALL_VIEW, scheme }, want: ['report', 'picture'] });
    return { name, design: whole, table, ...answer.ok, why: answer.error?.why };
  }

  /** @param {Told[]} told */
  #lay(told) {
    const boxes = told.map(() => el('div', { class: 'compare-picture' }));
    const heads = told.map(({ name, why }, i) => el('th', { scope: 'col' }, boxes[i], el('span', { class: 'compare-name' }, el('bdi', { text: name })), why ? el('span', { class: 'compare-why', text: why }) : null));
    const { differing, same } = parted([...figures(told), ...choices(told)]);
    this.#table.style.setProperty('--count', String(told.length));
    this.#table.replaceChildren(el('thead', {}, el('tr', {}, el('td', {}), ...heads)), el('tbody', {}, ...differing.map(line)));
    this.#same.replaceChildren(el('summary', { text: say('compare_same', { count: same.length }) }), el('table', { class: 'compare-table compare-same-table' }, el('tbody', {}, ...same.map(({ label, cells }) => line({ label, cells: cells.slice(0, 1) })))));
    this.#same.hidden = same.length === 0;
    const drawings = told.flatMap(({ picture }, i) => (picture && boxes[i] ? [putSmall(boxes[i], picture)] : []));
    // One view box for all: so they stand on one floor, to one scale.
    if (drawings.length > 0) frame(drawings, around(drawings.map(drawn)));
  }

  /** On white paper, whatever the scheme on screen; whoever hears that it is printed puts the page's own scheme back. */
  async #print() {
    const { classList, dataset } = document.documentElement;
    const wasOpen = this.#same.open;
    const shown = this.#session.view.scheme;
    dataset.scheme = 'light';
    await this.#show('light');
    classList.add('print-compare');
    this.#same.open = true;
    addEventListener(
      'afterprint',
      () => {
        classList.remove('print-compare');
        this.#same.open = wasOpen;
        this.#show(shown);
      },
      { once: true },
    );
    await laidOut();
    window.print();
  }
}

/** What comes out, first of all the price. @param {Told[]} told @returns {Row[]} */
function figures(told) {
  const of = (/** @type {string} */ label, /** @type {(report: Report) => string} */ text) => ({ label, cells: told.map(({ report }) => (report ? text(report) : '–')) });
  const mm = (/** @type {number} */ size) => wholeLength(size, true);
  return [
    of(say('price'), ({ bill }) => (bill ? money(bill.total_minor, bill) : say('no_price'))),
    of(say('width'), ({ overall }) => mm(overall.width)),
    of(say('depth'), ({ overall }) => mm(overall.depth)),
    of(say('height'), ({ overall }) => mm(overall.height)),
    of(say('mass'), ({ overall }) => `${number(overall.mass_kg, 1)} ${say('unit_kg')}`),
    of(say('parts'), ({ overall }) => number(overall.parts, 0)),
    of(say('verdict'), ({ findings }) => {
      const fails = findings.filter(({ verdict }) => verdict === 'fails').length;
      return fails > 0 ? say('verdict_fails', { count: fails }) : say('compare_holds');
    }),
  ];
}

/** The knobs of all kinds that are compared, in the core's order; one that does not apply to a design has no value there. @param {Told[]} told @returns {Row[]} */
function choices(told) {
  /** @type {Map<string, string>} */
  const labels = new Map();
  for (const { table } of told) for (const { name, label } of table) if (!labels.has(name)) labels.set(name, label);
  const cell = (/** @type {Told} */ { table, design }, /** @type {string} */ name) => {
    const knob = table.find((row) => row.name === name);
    return knob && applies(knob, design) ? knobValue(knob, design[name] ?? knob.default) : '–';
  };
  const rows = [...labels].map(([name, label]) => ({ label, cells: told.map((one) => cell(one, name)) }));
  return rows.filter(({ cells }) => cells.some((text) => text !== '–'));
}

/** @param {Row[]} rows */
function parted(rows) {
  const isSame = (/** @type {Row} */ { cells }) => cells.every((text) => text === cells[0]);
  // The price is never folded away.
  return { differing: rows.filter((row, i) => i === 0 || !isSame(row)), same: rows.filter((row, i) => i > 0 && isSame(row)) };
}

/** @param {Row} row */
function line({ label, cells }) {
  return el('tr', {}, el('th', { scope: 'row', text: label }), ...cells.map((text) => el('td', { text })));
}
