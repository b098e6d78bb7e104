// The lines of a maker's files that are asked for, in the order in which they are asked: where they stand, what they are
// called, in which unit. What is not asked for keeps what stands there, and can be written in the file.

import { units } from './length.js';
import { told } from './setup-told.js';
import { speech } from './words.js';

/**
 * @typedef {object} Field
 * @property {string} at where it stands, such as `labour.rate`
 * @property {string} label
 * @property {string} [unit] `money` stands for the currency
 * @property {string} [help]
 * @property {'text' | 'number' | 'colour' | 'widths' | 'lines'} [kind] a number where absent
 * @property {readonly (readonly [string, string])[]} [choices] name in the file, words
 * @property {string} [absent] what it means where it is left out
 * @property {boolean} [optional] left out of the file where it is empty
 */

/** What a showroom may speak, as `core/chair/src/showroom/read.rs` allows: a language that the page has words in, and a region. */
export const showroomTags = [
  ...['ar', 'ar-AE', 'ar-DZ', 'ar-EG', 'ar-MA', 'ar-SA', 'ar-TN'],
  ...['de', 'de-AT', 'de-CH', 'de-DE', 'de-LU'],
  ...['en', 'en-AU', 'en-CA', 'en-GB', 'en-IE', 'en-IN', 'en-NZ', 'en-US', 'en-ZA'],
  ...['es', 'es-AR', 'es-CL', 'es-CO', 'es-ES', 'es-MX', 'es-PE', 'es-US'],
  ...['fr', 'fr-BE', 'fr-CA', 'fr-CH', 'fr-FR', 'fr-LU'],
  ...['sw', 'sw-CD', 'sw-KE', 'sw-TZ', 'sw-UG'],
];
const tongues = new Intl.DisplayNames([speech.language, 'en'], { type: 'language' });

/** @type {readonly { head: string, fields: readonly Field[] }[]} */
export const bookFields = [
  {
    head: told('setup_head_workshop'),
    fields: [
      { at: 'name', label: told('setup_name'), kind: 'text' },
      { at: 'currency', label: told('setup_currency'), kind: 'text', help: told('setup_currency_help') },
      {
        at: 'thicknesses',
        label: told('setup_thicknesses'),
        choices: [['continental', told('setup_thicknesses_continental')], ['quarters', told('setup_thicknesses_quarters')], ['en_1313', told('setup_thicknesses_en_1313')], ['british', told('setup_thicknesses_british')]],
        help: told('setup_thicknesses_help'),
      },
    ],
  },
  {
    head: told('setup_head_time'),
    fields: [
      { at: 'labour.rate', label: told('setup_labour_rate'), unit: 'money', help: told('setup_labour_rate_help') },
      { at: 'pricing.overhead.per_hour', label: told('setup_pricing_overhead_per_hour'), unit: 'money', optional: true, help: told('setup_pricing_overhead_per_hour_help') },
      { at: 'pricing.overhead.percent_of_cost', label: told('setup_pricing_overhead_percent_of_cost'), unit: told('setup_unit_of_cost'), optional: true },
      { at: 'labour.method', label: told('setup_labour_method'), choices: [['hand', told('setup_labour_method_hand')], ['router', told('setup_labour_method_router')], ['machine', told('setup_labour_method_machine')]] },
      { at: 'pace', label: told('setup_pace'), unit: '%', help: told('setup_pace_help') },
      { at: 'labour.week.hours', label: told('setup_labour_week_hours'), unit: told('setup_unit_hours') },
      { at: 'labour.week.days', label: told('setup_labour_week_days'), unit: told('setup_unit_days') },
    ],
  },
  {
    head: told('setup_head_material'),
    fields: [
      { at: 'pegs.price', label: told('setup_pegs_price'), unit: 'money' },
      { at: 'glue.price_per_kg', label: told('setup_glue_price_per_kg'), unit: 'money' },
      { at: 'finish.price_per_litre', label: told('setup_finish_price_per_litre'), unit: 'money' },
      { at: 'finish.m2_per_litre', label: told('setup_finish_m2_per_litre'), unit: 'm²' },
      { at: 'finish.coats', label: told('setup_finish_coats'), unit: '' },
      { at: 'fixings.price', label: told('setup_fixings_price'), unit: 'money' },
      { at: 'seating.plywood_per_m2', label: told('setup_seating_plywood_per_m2'), unit: 'money / m²', optional: true },
      { at: 'seating.foam_per_m2', label: told('setup_seating_foam_per_m2'), unit: 'money / m²', optional: true },
      { at: 'seating.cover_per_m2', label: told('setup_seating_cover_per_m2'), unit: 'money / m²', optional: true },
      { at: 'seating.cord_per_metre', label: told('setup_seating_cord_per_metre'), unit: 'money / m', optional: true, help: told('setup_seating_cord_per_metre_help') },
    ],
  },
  {
    head: told('setup_head_tools'),
    fields: [
      { at: 'kerf', label: told('setup_kerf'), unit: told('unit_mm') },
      { at: 'cutters', label: told('setup_cutters'), unit: told('unit_mm'), kind: 'widths', help: told('setup_cutters_help') },
      { at: 'joint_fit', label: told('setup_joint_fit'), unit: told('unit_mm') },
    ],
  },
  {
    head: told('setup_head_price'),
    fields: [
      { at: 'pricing.contingency', label: told('setup_pricing_contingency'), unit: told('setup_unit_of_cost') },
      { at: 'pricing.profit.margin', label: told('setup_pricing_profit_margin'), unit: told('setup_unit_of_price'), optional: true, help: told('setup_pricing_profit_margin_help') },
      { at: 'pricing.profit.markup', label: told('setup_pricing_profit_markup'), unit: told('setup_unit_of_cost'), optional: true },
      { at: 'pricing.profit_on_material.markup', label: told('setup_pricing_profit_on_material_markup'), unit: told('setup_unit_of_its_cost'), optional: true, help: told('setup_pricing_profit_on_material_markup_help') },
      { at: 'pricing.rounding.to', label: told('setup_pricing_rounding_to'), unit: 'money', optional: true },
      { at: 'pricing.rounding.way', label: told('setup_pricing_rounding_way'), choices: [['up', told('setup_pricing_rounding_way_up')], ['nearest', told('setup_pricing_rounding_way_nearest')], ['down', told('setup_pricing_rounding_way_down')]] },
      { at: 'pricing.delivery.each_order', label: told('setup_pricing_delivery_each_order'), unit: 'money', optional: true },
      { at: 'pricing.delivery.each_chair', label: told('setup_pricing_delivery_each_chair'), unit: 'money', optional: true },
      { at: 'pricing.tax.name', label: told('setup_pricing_tax_name'), kind: 'text' },
      { at: 'pricing.tax.percent', label: told('setup_pricing_tax_percent'), unit: '%' },
      { at: 'pricing.deposit', label: told('setup_pricing_deposit'), unit: '%' },
      {
        at: 'pricing.selling_rates',
        label: told('setup_pricing_selling_rates'),
        choices: [['R40', told('setup_pricing_selling_rates_r40')], ['R80', told('setup_pricing_selling_rates_r80')], ['', told('setup_pricing_selling_rates_none')]],
        optional: true,
        help: told('setup_pricing_selling_rates_help'),
      },
    ],
  },
];

/** @type {readonly { head: string, fields: readonly Field[] }[]} */
export const roomFields = [
  {
    head: told('setup_head_who'),
    fields: [
      { at: 'brand', label: told('setup_brand'), kind: 'text' },
      { at: 'line', label: told('setup_line'), kind: 'text', optional: true },
      { at: 'contact.mail', label: told('setup_contact_mail'), kind: 'text' },
      { at: 'contact.lines', label: told('setup_contact_lines'), kind: 'lines', optional: true },
      { at: 'language', label: told('setup_language'), choices: showroomTags.map((tag) => [tag, tongues.of(tag) ?? tag]), help: told('setup_language_help') },
      { at: 'lengths', label: told('lengths'), choices: units.map((unit) => [unit, told(`lengths_name_${unit}`)]), absent: 'mm', help: told('setup_lengths_help') },
      { at: 'colours.light', label: told('setup_colours_light'), kind: 'colour' },
      { at: 'colours.dark', label: told('setup_colours_dark'), kind: 'colour' },
    ],
  },
  {
    head: told('setup_head_prices'),
    fields: [
      { at: 'price', label: told('setup_price'), choices: [['shown', told('setup_price_shown')], ['from', told('setup_price_from')], ['none', told('setup_price_none')]] },
      { at: 'price_note', label: told('setup_price_note'), kind: 'text', optional: true, help: told('setup_price_note_help') },
    ],
  },
];

/** What customers may choose of every chair on offer: the knob, and how far to each side of its first value. */
export const opened = /** @type {const} */ ([
  { knob: 'seat_height', label: told('setup_open_seat_height'), around: 30 },
  { knob: 'seat_width', label: told('setup_open_seat_width'), around: 40 },
  { knob: 'back_height', label: told('setup_open_back_height'), around: 40 },
  { knob: 'back', label: told('setup_open_back'), around: 0 },
  { knob: 'seat', label: told('setup_open_seat'), around: 0 },
  { knob: 'species', label: told('setup_open_species'), around: 0 },
]);
