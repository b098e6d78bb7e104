// The lines of a maker's files that are asked for, in the order in which they are asked: where they stand, what they are
// called, in which unit. What is not asked for keeps what stands there, and can be written in the file.

/**
 * @typedef {object} Field
 * @property {string} at where it stands, such as `labour.rate`
 * @property {string} label
 * @property {string} [unit] `money` stands for the currency
 * @property {string} [help]
 * @property {'text' | 'number' | 'colour' | 'widths' | 'lines'} [kind] a number where absent
 * @property {readonly (readonly [string, string])[]} [choices] name in the file, words
 * @property {boolean} [optional] left out of the file where it is empty
 */

/** @type {readonly { head: string, fields: readonly Field[] }[]} */
export const bookFields = [
  {
    head: 'The workshop',
    fields: [
      { at: 'name', label: 'Name', kind: 'text' },
      { at: 'currency', label: 'Currency', kind: 'text', help: 'Its three letters, such as EUR, GBP or USD.' },
      {
        at: 'thicknesses',
        label: 'Boards of your yard',
        choices: [['continental', 'continental: 20, 26, 32 mm …'], ['quarters', 'quarters of an inch'], ['en_1313', 'EN 1313'], ['british', 'British']],
        help: 'With other boards than the continental ones, timber is reckoned by its yield until you write your stock list into the file.',
      },
    ],
  },
  {
    head: 'Your time',
    fields: [
      { at: 'labour.rate', label: 'An hour at the bench costs', unit: 'money', help: 'Wage and what goes with it; no overhead, no profit.' },
      { at: 'pricing.overhead.per_hour', label: 'Overhead for each hour', unit: 'money', optional: true, help: 'Rent, machines, insurance, hours that no chair pays for.' },
      { at: 'pricing.overhead.percent_of_cost', label: 'or overhead by', unit: '% of the cost', optional: true },
      { at: 'labour.method', label: 'Joints are cut', choices: [['hand', 'by hand'], ['router', 'with a router'], ['machine', 'with fixed machines']] },
      { at: 'pace', label: 'Your times, of the invented ones', unit: '%', help: '100 where you take as long, 150 for half as long again. Each operation has a line of its own in the file.' },
      { at: 'labour.week.hours', label: 'Hours at the bench a week', unit: 'h' },
      { at: 'labour.week.days', label: 'Days a week', unit: 'days' },
    ],
  },
  {
    head: 'Material besides timber',
    fields: [
      { at: 'pegs.price', label: 'A peg', unit: 'money' },
      { at: 'glue.price_per_kg', label: 'A kilogram of glue', unit: 'money' },
      { at: 'finish.price_per_litre', label: 'A litre of finish', unit: 'money' },
      { at: 'finish.m2_per_litre', label: 'A litre covers once', unit: 'm²' },
      { at: 'finish.coats', label: 'Coats', unit: '' },
      { at: 'fixings.price', label: 'A screw', unit: 'money' },
      { at: 'seating.plywood_per_m2', label: 'Plywood for pads', unit: 'money / m²', optional: true },
      { at: 'seating.foam_per_m2', label: 'Foam', unit: 'money / m²', optional: true },
      { at: 'seating.cover_per_m2', label: 'Cover', unit: 'money / m²', optional: true },
      { at: 'seating.cord_per_metre', label: 'Cord', unit: 'money / m', optional: true, help: 'Leave out what you do not make: such a seat is then refused.' },
    ],
  },
  {
    head: 'Tools',
    fields: [
      { at: 'kerf', label: 'The saw takes away', unit: 'mm' },
      { at: 'cutters', label: 'Mortise chisels and cutters', unit: 'mm', kind: 'widths', help: 'All widths, narrow to wide, with spaces between.' },
      { at: 'joint_fit', label: 'A tenon is thinner than its mortise by', unit: 'mm' },
    ],
  },
  {
    head: 'From cost to price',
    fields: [
      { at: 'pricing.contingency', label: 'For what goes wrong', unit: '% of the cost' },
      { at: 'pricing.profit.margin', label: 'Margin', unit: '% of the price', optional: true, help: 'Of a price of 300, 20 % are 60.' },
      { at: 'pricing.profit.markup', label: 'or mark-up', unit: '% of the cost', optional: true },
      { at: 'pricing.profit_on_material.markup', label: 'On material instead', unit: '% of its cost', optional: true, help: 'Another share on timber and other material. Set it if you show prices: whoever knows what your yard charges could else work out your margin.' },
      { at: 'pricing.rounding.to', label: 'A price is a multiple of', unit: 'money', optional: true },
      { at: 'pricing.rounding.way', label: 'Rounded', choices: [['up', 'up'], ['nearest', 'to the nearest'], ['down', 'down']] },
      { at: 'pricing.delivery.each_order', label: 'Delivery, each order', unit: 'money', optional: true },
      { at: 'pricing.delivery.each_chair', label: 'Delivery, each chair', unit: 'money', optional: true },
      { at: 'pricing.tax.name', label: 'The tax is called', kind: 'text' },
      { at: 'pricing.tax.percent', label: 'Tax', unit: '%' },
      { at: 'pricing.deposit', label: 'Paid before the work begins', unit: '%' },
      {
        at: 'pricing.selling_rates',
        label: 'Selling rates',
        choices: [['R40', 'steps of 6 %, hides best'], ['R80', 'steps of 3 %'], ['', 'none, no price shown']],
        optional: true,
        help: 'Your customers’ page works out prices from rates in which everything private is folded, each rounded to such steps. The bill tells how much that moves a price.',
      },
    ],
  },
];

/** @type {readonly { head: string, fields: readonly Field[] }[]} */
export const roomFields = [
  {
    head: 'Who you are',
    fields: [
      { at: 'brand', label: 'Name on the page', kind: 'text' },
      { at: 'line', label: 'A few words below it', kind: 'text', optional: true },
      { at: 'contact.mail', label: 'Mail for quotes', kind: 'text' },
      { at: 'contact.lines', label: 'Address or telephone', kind: 'lines', optional: true },
      { at: 'colours.light', label: 'Your colour on light paper', kind: 'colour' },
      { at: 'colours.dark', label: 'Your colour on dark paper', kind: 'colour' },
    ],
  },
  {
    head: 'Prices',
    fields: [
      { at: 'price', label: 'Customers are told', choices: [['shown', 'the price of each chair'], ['from', 'the lowest price, “from”'], ['none', 'no price']] },
      { at: 'price_note', label: 'Beside the price', kind: 'text', optional: true, help: 'A price is that of one chair with delivery and tax.' },
    ],
  },
];

/** What customers may choose of every chair on offer: the knob, and how far to each side of its first value. */
export const opened = /** @type {const} */ ([
  { knob: 'seat_height', label: 'Seat height, 30 mm up and down', around: 30 },
  { knob: 'seat_width', label: 'Width in front, 40 mm up and down', around: 40 },
  { knob: 'back_height', label: 'Height of the back, 40 mm up and down', around: 40 },
  { knob: 'back', label: 'Kind of back', around: 0 },
  { knob: 'seat', label: 'Kind of seat', around: 0 },
  { knob: 'species', label: 'Timber, of those with a price', around: 0 },
]);
