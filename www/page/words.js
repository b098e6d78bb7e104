/**
 * The page's own words, by key; the core brings the words of knobs, parts, joints and findings.
 * `{name}` stands for a value. `one|other` forms are chosen by the number `count`.
 */
const english = {
  // Head and menu
  design_name: 'Name of this design',
  design_unnamed: 'Untitled chair',
  menu: 'Design',
  menu_open: 'Open a design…',
  menu_save: 'Save the design',
  menu_link: 'Copy a link to it',
  menu_reset: 'Start afresh',
  scheme: 'Page colours',
  scheme_system: 'As my device',
  scheme_light: 'Light',
  scheme_dark: 'Dark',
  skip: 'Skip to the sizes',

  // Picture
  picture: 'Picture of the chair',
  picture_says: '{name} ({kind}), {view}, {spread}. {width} mm wide, {depth} mm deep, {height} mm high, seat at {seat} mm. Arrow keys turn it, plus and minus take it apart and put it together.',
  turn: 'Turn',
  turn_says: 'turned {turn}°',
  spread: 'Apart',
  spread_name: 'How far it is taken apart',
  spread_whole: 'assembled',
  spread_apart: 'taken apart by {percent} %',
  view_front: 'Front',
  view_side: 'Side',
  view_corner: 'Corner',
  view_name_front: 'Look at the front',
  view_name_side: 'Look at the side',
  view_name_corner: 'Look from the corner, three-quarter view',
  take_apart: 'Take apart',
  assemble: 'Assemble',
  tints: 'What the tints mean',
  tint_wood: 'Wood',
  tint_share: 'Strength',
  tint_name_wood: 'Tint the parts as wood',
  tint_name_share: 'Tint the parts by the share of what they can carry',
  tint_says: 'Tints and hatching show how much of what it can carry is used of each part.',
  letters: 'Letters',
  letters_name: 'Show the letter of each part',

  // Kinds of chair
  kinds: 'Kind of chair',
  kind_opened: 'Now: {kind}, in its first sizes.',
  kind_kept: 'Now: {kind}. What you had changed is kept.',
  kind_dropped: 'Now: {kind}. Not kept, because it does not fit this kind: {lines}.',
  kind_dropped_one: '{label} ({was}, now {now})',
  kind_failed: 'The kind was not changed. {why}',

  // Knobs
  knobs: 'Sizes',
  help: 'What is {label}?',
  knob_default_name: '{label}: back to {value}',
  fewer: 'Fewer: {label}',
  more: 'More: {label}',
  unit_mm: 'mm',
  unit_deg: '°',
  unit_percent: '%',
  unit_kg: 'kg',
  spoken_mm: '{value} millimetres',
  spoken_deg: '{value} degrees',
  spoken_percent: '{value} percent',
  spoken_kg: '{value} kilograms',
  holds_all: 'Nothing fails from {low} to {high}, all the way.',
  holds_span: 'Holds from {low} to {high}.',
  holds_stop: 'At {value}: {why}',
  holds_picks: 'Nothing fails with any of the others.',
  holds_pick: 'With “{label}”: {why}',
  holds_failing: 'Something fails already; this says where nothing more does.',
  choice_fails: '{label} ✕',
  not_number: '{label} needs a number{unit}. Type one from {min} to {max}.',
  out_of_range: '{label} is {value}; it must be from {min} to {max}. Type a number in that range.',
  not_whole: '{label} is a count. Type a whole number from {min} to {max}.',
  in_unit: ' in {unit}',

  // Title block
  summary: 'Overall sizes and price',
  width: 'Width',
  depth: 'Depth',
  height: 'Height',
  seat: 'Seat height',
  size: 'W × D × H',
  mass: 'Weight',
  parts: 'Parts',
  price: 'Price of materials',
  parts_and_pegs: '{parts} + {pegs} pegs',
  no_price: 'no price',
  verdict: 'Checks',
  verdict_sound: 'all sound',
  verdict_close: '{count} close|{count} close',
  verdict_fails: '{count} fails|{count} fail',
  summary_says: 'Materials {price}. {width} wide, {depth} deep, {height} high, in millimetres. Checks: {verdict}.',

  // Lists
  lists: 'Lists',
  tab_cutting: 'Cutting list',
  tab_joints: 'Joints',
  tab_assembly: 'How it goes together',
  tab_price: 'Price of materials',
  tab_fit: 'Fit',
  tab_findings: 'Checks and cautions',
  table_region: '{name}, a wide table: scroll sideways to see all of it',
  light_part: 'Part {letter}: show it in the picture',
  letter: 'Letter',
  part: 'Part',
  quantity: 'Qty',
  finished: 'Finished size',
  rough: 'Rough size',
  length: 'Length',
  thickness: 'Thickness',
  length_short: 'L',
  width_short: 'W',
  thickness_short: 'T',
  trade: 'Sawn from',
  timber: 'Timber',
  grain: 'Grain',
  volume: 'Volume',
  mass_each: 'Weight',
  cutting_note: 'Lengths include the tenons. Rough sizes have the workshop’s allowance for planing and trimming. Volume and weight are those of one piece, joints cut.',
  cutting_total: '{count} piece in all|{count} pieces in all',

  joints_note: 'One entry for all joints made alike. All sizes in mm; mark from the face side.',
  assembly_note: 'In this order nothing is in the way of anything: each step was tried by moving the parts as solids. Try it dry, without glue, first.',
  joint_count: '{count} joint|{count} joints',
  tenon: 'Tenon',
  mortise: 'Mortise',
  shoulders: 'Shoulders',
  shoulder_top: 'Top',
  shoulder_bottom: 'Bottom',
  shoulder_front: 'Front',
  shoulder_back: 'Back',
  haunch: 'Haunch',
  mitre_short: 'Short side',
  mitre_with: 'Meets the tenon of',
  mitre_gap: 'Gap to the other tenon',
  mortise_depth: 'Depth',
  mortise_width: 'Length of the mouth',
  mortise_thickness: 'Width of the mouth (cutter)',
  glue_gap: 'Room for glue at the bottom',
  wall: 'Thinnest wall beside it',
  above_floor: 'Above the floor',
  from_end: 'From the end of the part',
  pegs: 'Pegs',
  peg_round: 'round',
  peg_square: 'square',
  peg_size: 'Size',
  peg_from_face: 'From the joint’s face',
  peg_from_middle: 'Off the tenon’s middle',
  peg_on_middle: 'on it',
  peg_towards_top: '{value} to the top',
  peg_towards_bottom: '{value} to the bottom',
  peg_length: 'Length',
  peg_number: 'Peg {number}, {shape}',
  angles: 'Angles',
  angle_across_width: 'Shoulder off square, across the width',
  angle_across_thickness: 'Shoulder off square, across the thickness',
  angle_to_grain: 'Tenon off the grain',
  angle_mortise: 'Mortise off square',
  rules: 'Why these sizes',
  bare: 'none',

  joint_kind: 'Kind of joint',
  corner: 'Where it meets the tenon of the {part}',
  corner_way: '{way}: {words}',
  corner_other: 'Not taken, {way}',
  corner_glue: '{area} cm² to glue',
  tongue_number: 'Piece {number} of the tenon',
  tongue_bottom: 'Above the tenon’s lower edge',
  tongue_reach: 'From the shoulder',
  insert_count: 'How many in one joint',
  insert_size: 'Length × width × thickness',
  insert_into: 'Depth of its hole in the tenon’s part',
  wedge_kerf: 'Saw cut for a wedge, depth',
  wedge_flare: 'Mortise longer at each end, outside',
  wedge_edge: 'Saw cut from the tenon’s edge',
  peg_draw: 'Hole in the tenon nearer the shoulder by',

  price_note: 'Timber, pegs, glue and finish; the maker’s work is not in it. Each line says where its quantity comes from. Select the letters to see the parts in the picture.',
  bill: 'Price of materials, line by line',
  bill_what: 'What',
  bill_quantity: 'Quantity',
  bill_rate: 'Rate',
  bill_per: '{rate} / {unit}',
  bill_each: '{rate} each',
  bill_amount: 'Amount',
  bill_total: 'Total',
  timber_buy: 'Timber to buy',
  timber_thickness: 'Trade thickness',
  timber_net: 'In the chair',
  timber_rough: 'Rough',
  timber_bought: 'To buy',
  board_feet: 'Board feet',

  fit: 'How it fits',
  fit_measure: 'Size',
  fit_chair: 'Chair',
  fit_wanted: 'Wanted',
  fit_suits: 'Suits',
  fit_women: 'women',
  fit_men: 'men',
  fit_people: 'people like this',
  fit_verdict: 'Fit',
  fit_between: '{least} to {most}',
  fit_from: '{least} or more',
  fit_up_to: '{most} or less',
  fit_unknown: '–',
  fit_who: '{who}. Change it under “Who it is for”.',
  fit_make: 'Make it fit',
  fit_making: 'Trying sizes…',
  fit_made: 'Made to fit: {lines}.',
  fit_made_one: '{label} {now} (was {was})',
  fit_same: 'It fits as well as this kind of chair can.',
  fit_unmet: 'Not met: {lines}',
  fit_worse: 'But look at the checks: {lines}',
  fit_failed: 'It was not made to fit. {why}',

  findings: 'Checks',
  findings_none: 'There is no check to show for this design.',
  findings_sound: '{count} other check is sound|{count} other checks are sound',
  findings_all_sound: 'The one check made is sound|All {count} checks are sound',
  sound: 'sound',
  close: 'close',
  fails: 'fails',
  finding_used: '{percent} % of the limit',
  finding_of: '{value} against a limit of {limit}',
  finding_knob: 'Go to {label}',
  cautions: 'Cautions',
  cautions_none: 'No cautions for this design.',

  // Files
  take_away: 'Take it with you',
  file_print: 'Print the parts list',
  file_cutting_list_csv: 'Cutting list, CSV',
  file_bill_csv: 'Price, CSV',
  file_report_json: 'Whole report, JSON',
  file_picture_svg: 'Picture, SVG',
  file_parts_list_html: 'Parts list, HTML',
  file_making: 'Making {name}: {words}',
  file_made: 'Saved {name}.',
  file_failed: 'The file was not made. {why}',

  // What cannot be built
  clash: 'This chair cannot be made as set',
  clash_keeps: 'The picture and the lists still show the last chair that can be made.',
  clash_knobs: 'These clash:',
  clash_looking: 'Looking for the nearest size that works…',
  clash_set: 'Set {label} to {value}',
  clash_back: 'Back to the last chair that works',
  clash_lost: 'No single knob mends it. {why}',

  // Notices
  undo: 'Undo',
  dismiss: 'Close this message',
  reset_done: 'All sizes are back where they started.',
  link_copied: 'The link is copied. Whoever opens it sees this chair.',
  link_here: 'The browser did not let the page copy. The link is in the address bar: copy it from there.',
  link_broken: 'The link was not opened. {why} The chair shown is the one kept here.',
  link_opened: 'This chair came with a link. Your own last design is kept.',
  link_bring_back: 'Bring mine back',
  open_done: 'Opened “{name}”.',
  open_failed: 'Could not open “{file}”. {why} The chair on screen has not changed.',
  open_too_big: 'It is {size} MB; a design is far smaller. Choose the design.json that was saved here.',
  open_unread: 'The file could not be read from the disk.',
  save_done: 'Saved “{file}”.',
  store_corrupt: 'The design kept in this browser could not be read, so the page started afresh. {why} What was kept is set aside under “{key}” in this browser’s storage.',
  store_refused: 'This browser does not let the page keep the design. Save it to a file before you leave.',
  worker_died: 'The part of the page that computes has stopped: {why}',
  worker_silent: 'it gave no reason',
  worker_restarted: 'The part of the page that computes stopped ({why}) and has been started again. The page shows the last chair that it could compute.',
  worker_lost: 'The part of the page that computes keeps stopping ({why}). Save the link in the address bar, then load the page again.',
  update_ready: 'A newer version of this page is ready.',
  update_take: 'Use it now',
  offline_ready: 'This page is kept in this browser and now works without a network.',
  loading: 'Setting up the bench…',

  // Print
  print_title: 'Parts list',
  print_made: 'Made on {date}',
};

/** @typedef {keyof typeof english} Word */

/** The language of the words, and of numbers among them. */
export const language = 'en';
const plurals = new Intl.PluralRules(language);

/**
 * The words for `key`, with its values put in.
 * @param {Word} key
 * @param {Record<string, string | number>} [values]
 */
export function say(key, values = {}) {
  return chosen(english[key], values.count).replace(/\{(\w+)\}/g, (hole, name) => String(values[name] ?? hole));
}

/** @param {string} words @param {string | number | undefined} count */
function chosen(words, count) {
  const [one, other] = words.split('|');
  if (other === undefined || count === undefined) return words;
  return /** @type {string} */ (plurals.select(Number(count)) === 'one' ? one : other);
}

/**
 * Fills the words into the static page: `data-word` the text, `data-word-name` the accessible name.
 * @param {ParentNode} root
 */
export function fillWords(root) {
  for (const element of root.querySelectorAll('[data-word]')) {
    element.textContent = say(/** @type {Word} */ (element.getAttribute('data-word')));
  }
  for (const element of root.querySelectorAll('[data-word-name]')) {
    element.setAttribute('aria-label', say(/** @type {Word} */ (element.getAttribute('data-word-name'))));
  }
}
