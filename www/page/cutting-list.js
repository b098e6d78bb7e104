import { el, setText } from './dom.js';
import { fixed, number } from './format.js';
import { Table } from './table.js';
import { apart, say } from './words.js';

/** @import { PartRow, Report, Sizes } from './messages.d.ts' */
/** @import { Column } from './table.js' */

/** Volume is read in cubic centimetres: a chair's parts are some tens to a few thousand of them. */
const MM3_IN_CM3 = 1000;

/** @type {Column<PartRow>[]} */
const columns = [
  { key: 'letter', head: say('letter'), text: () => '', letters: ({ letter }) => [letter] },
  { key: 'part', head: say('part'), text: ({ part }) => part, note: ({ note }) => note },
  { key: 'quantity', head: say('quantity'), figures: true, text: ({ quantity }) => number(quantity, 0) },
  ...sizes('finished', (row) => row),
  ...sizes('rough', (row) => row.rough),
  { key: 'trade', head: say('trade'), text: ({ trade }) => (trade ? apart(trade) : '–') },
  { key: 'timber', head: say('timber'), text: ({ timber }) => timber },
  { key: 'grain', head: say('grain'), text: ({ grain }) => grain },
  { key: 'volume', head: say('volume'), unit: say('unit_cm3'), figures: true, text: ({ volume_mm3: volume }) => fixed(volume / MM3_IN_CM3, 1) },
  { key: 'mass', head: say('mass_each'), unit: say('unit_kg'), figures: true, text: ({ mass_kg: mass }) => fixed(mass, 3) },
];

/** The cutting list: one line for all pieces made alike. */
export class CuttingList {
  table = new Table(say('tab_cutting'), columns, ({ letter }) => [letter]);
  #total = el('p', { class: 'list-total' });
  container = el('section', {}, this.table.container, this.#total, el('p', { class: 'list-note', text: say('cutting_note') }));

  /** @param {Report} report */
  update({ cutting_list: rows }) {
    this.table.update(rows);
    const count = rows.reduce((sum, { quantity }) => sum + quantity, 0);
    setText(this.#total, say('cutting_total', { count }));
  }
}

/** @param {'finished' | 'rough'} group @param {(row: PartRow) => Sizes} of @returns {Column<PartRow>[]} */
function sizes(group, of) {
  return /** @type {const} */ (['length', 'width', 'thickness']).map((side) => ({
    key: `${group}-${side}`,
    head: say(`${side}_short`),
    unit: say('unit_mm'),
    group: say(group),
    figures: true,
    text: (/** @type {PartRow} */ row) => fixed(of(row)[side], 1),
  }));
}
