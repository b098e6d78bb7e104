import { el, setText } from './dom.js';
import { fixed } from './format.js';
import { Table } from './table.js';
import { say } from './words.js';

/** @import { Labour, StageHours } from './messages.d.ts' */
/** @import { Column } from './table.js' */

/** @type {Column<StageHours>[]} */
const columns = [
  { key: 'what', head: say('work_stage'), text: ({ name }) => name },
  { key: 'letters', head: say('parts'), text: () => '', letters: ({ parts }) => parts },
  { key: 'hours', head: say('work_hours'), unit: say('unit_hours'), figures: true, text: ({ hours }) => fixed(hours, 2) },
];

/** The work by stage, its hours, and when the chair is ready. */
export class Work {
  table = new Table(say('work'), columns, ({ parts }) => parts);
  #hours = el('span', {});
  #lead = el('p', { class: 'list-total' });
  #why = el('p', { class: 'list-note' });
  container = el(
    'section',
    { class: 'work-hours' },
    el('h3', { text: say('work') }),
    this.table.container,
    el('p', { class: 'list-total total' }, el('span', { text: say('work_total') }), this.#hours),
    this.#lead,
    this.#why,
  );

  /** @param {Labour | undefined} labour absent where the workshop's file has no times */
  update(labour) {
    this.container.hidden = !labour;
    if (!labour) return;
    this.table.update(labour.stages);
    setText(this.#hours, `${fixed(labour.hours, 2)} h`);
    setText(this.#lead, say('work_lead', { count: labour.lead.working_days, weeks: labour.lead.weeks }));
    setText(this.#why, labour.lead.why);
  }
}
