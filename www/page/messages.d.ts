// The shapes of all that passes between the page, its worker and the core. Lengths in mm, angles in
// degrees, mass in kg, money in integer minor units of its currency.

import type { DimensionRoom, Dimensions, Held } from './dimension-data.d.ts';

/** A knob's value: a number for a range or a count, a name for a choice. */
export type Value = number | string;

/** Values by the knob's name. */
export type Design = Record<string, Value>;

/** One row of the table from which the knobs are made. */
export interface Knob {
  name: string;
  label: string;
  help: string;
  group: string;
  groupLabel: string;
  kind: 'range' | 'count' | 'choice';
  /** Null for counts and choices. */
  unit: 'mm' | 'deg' | '%' | 'kg' | null;
  /** Limits and step of ranges and counts; null for choices. */
  min: number;
  max: number;
  step: number;
  default: Value;
  choices?: { name: string; label: string }[];
  /** Absent: always. Else only while every one of these choices has one of these values. */
  applies?: { knob: string; any: string[] }[];
}

/** A kind of chair. */
export interface Kind {
  name: string;
  label: string;
}

/** A changed value that another kind of chair does not allow. */
export interface Dropped {
  knob: string;
  was: Value;
  now: Value;
}

/** A design as another kind of chair. */
export interface Turned {
  design: Design;
  dropped: Dropped[];
}

/** How the chair is looked at. */
export interface View {
  /** Degrees; 0 looks at the front, positive shows the chair's right side. */
  turn: number;
  /** Degrees above the horizon. */
  tilt: number;
  /** 0 assembled, 1 fully apart. */
  spread: number;
  scheme: 'light' | 'dark';
  letters: boolean;
  /** What the tints mean: the material, or the share that is used of what each part can carry. */
  colour: 'wood' | 'share';
  width?: number;
  height?: number;
  /** Room kept for sizes over the picture, where they are shown. */
  dimensions?: DimensionRoom | undefined;
  /** Scale and place that are kept while a size is dragged. */
  held?: Held | undefined;
  /** How many steps of the order of assembly are done, instead of `spread`. */
  assembled?: number | undefined;
}

/** The nearest value that works, and the words for a button. */
export interface Mend {
  knob: string;
  value: Value;
  say: string;
}

/** Why something was refused. `where` names the field, or `build` for a chair that cannot be made. */
export interface Refusal {
  where: string;
  why: string;
  stage?: string;
  knobs?: string[];
  mend?: Mend;
}

/** Every call that can fail is answered so. */
export type Answer<T> = { ok: T; error?: undefined } | { ok?: undefined; error: Refusal };

export interface Sizes {
  length: number;
  width: number;
  thickness: number;
}

export interface PartRow extends Sizes {
  letter: string;
  part: string;
  role: string;
  quantity: number;
  handed: boolean;
  rough: Sizes;
  /** The yard's name of the thickness it is sawn from; null where there is none. */
  trade?: string | null;
  timber: string;
  grain: string;
  volume_mm3: number;
  mass_kg: number;
  note: string;
}

export interface PegRow {
  size: number;
  shape: string;
  from_face: number;
  from_middle: number;
  length: number;
  /** How much nearer to the shoulder the hole in the tenon is; 0 or absent where it is bored straight. */
  draw?: number;
}

/** How a tenon passes another one in the same part, and what else was weighed. */
export interface CornerRow {
  way: string;
  name: string;
  /** The part whose tenon it meets. */
  with: string;
  /** Area of the cheeks of the tenons that meet. */
  glue_mm2?: number;
  why: string;
  /** The ways not taken: what they would leave to glue, or why they have no room. */
  others: { way: string; name: string; glue_mm2?: number; why?: string }[];
}

export interface JointRow {
  name: string;
  host: string;
  guest: string;
  letter_host: string;
  letter_guest: string;
  quantity: number;
  kind?: string;
  kind_name?: string;
  /** Why it is of this kind. */
  why?: string;
  /** What was wished and had no room. */
  given_way?: string;
  corners?: CornerRow[];
  /** The pieces of a tenon that is not one plain rectangle. */
  tongues?: { from_bottom: number; width: number; from: number; to: number }[];
  /** Loose tenons, dowels or wedges of one joint. */
  inserts?: Sizes & { what: string; quantity: number; into_guest?: number };
  wedges?: { count: number; kerf: number; thickness: number; from_edge?: number; flare: number };
  tenon: Sizes;
  shoulders: { top: number; bottom: number; front: number; back: number };
  haunch?: { length: number; width: number } | null;
  mitre?: { with?: string; short_length: number; gap: number } | null;
  mortise: {
    depth: number;
    width: number;
    thickness: number;
    glue_gap: number;
    wall: number;
    from_end: number;
    /** Lower and upper end of the mouth, for mortises in legs. */
    above_floor?: [number, number][];
  };
  pegs: PegRow[];
  /** Degrees by name. */
  angles: Record<string, number>;
  rule: { say: string; source: string }[];
}

/** One step of putting the chair together. */
export interface AssemblyRow {
  number: number;
  title: string;
  say: string;
  /** Of all parts that are moved. */
  letters: string[];
}

export interface Finding {
  subject: string;
  topic: 'strength' | 'tipping' | 'fit' | 'movement' | 'joints' | 'making' | 'safety';
  /** For a customer. */
  plain: string;
  knob?: string | null;
  /** For a maker. */
  say: string;
  value: number;
  limit: number;
  unit: string;
  verdict: 'sound' | 'close' | 'fails';
  /** Share of the limit that is used; 1 is the limit. */
  used: number;
  source: string;
}

/** One size of the chair beside what its sitter wants. */
export interface FitRow {
  item: string;
  measure: string;
  chair: number;
  unit: string;
  at_least?: number;
  at_most?: number;
  /** Shares whom it suits, in words; absent where nothing is known. */
  women?: string;
  men?: string;
  /** Of people like the sitter. */
  people?: string;
  verdict: 'sound' | 'close' | 'fails';
  /** For a customer. */
  plain: string;
  /** For a maker. */
  say: string;
  knob: string;
  source: string;
}

/** How the chair fits whoever sits on it. */
export interface Fit {
  who: string;
  caveat: string;
  rows: FitRow[];
}

/** A design made to fit its sitter. */
export interface Fitted {
  design: Design;
  changed: Dropped[];
  /** What could not be met. */
  unmet: FitRow[];
  /** What fails now and did not before, of strength, tipping or joints. */
  worse: Finding[];
}

export interface TimberLine {
  species: string;
  thickness?: string | null;
  thickness_mm: number;
  volume_m3: number;
  rough_m3: number;
  /** These two only where timber is reckoned by its yield. */
  bought_m3?: number;
  board_feet?: number;
  parts?: string[];
}

export interface BillLine {
  id: string;
  /** `material`, `labour`, `overhead` and so on. */
  group: string;
  what: string;
  quantity: number;
  unit: string;
  rate_minor: number;
  amount_minor: number;
  why: string;
  parts: string[];
}

export interface Bill {
  currency: string;
  minor_digits: number;
  lines: BillLine[];
  sums: BillSum[];
  /** Before delivery and tax. */
  price_minor: number;
  total_minor: number;
  deposit_minor?: number;
  /** What the workshop's file does not say, and what is therefore not in the bill. */
  missing: string[];
}

export interface BillSum {
  group: string;
  what: string;
  amount_minor: number;
}

export interface StageHours {
  stage: string;
  name: string;
  hours: number;
  parts: string[];
}

export interface Lead {
  working_days: number;
  weeks: number;
  bench_hours: number;
  waiting_hours: number;
  why: string;
}

/** The work at one chair. */
export interface Labour {
  batch: number;
  method: string;
  stages: StageHours[];
  hours: number;
  lead: Lead;
}

/** A knob tried a step down and up. */
export interface Swing {
  knob: string;
  label: string;
  low: Tried;
  high: Tried;
  span_minor: number;
}

export interface Tried {
  value: Value;
  say: string;
  present: boolean;
  price_minor: number;
}

export interface Tornado extends Pick<Bill, 'currency' | 'minor_digits' | 'price_minor'> {
  swings: Swing[];
}

/** What a quote needs besides the chair. */
export interface QuoteWish {
  quantity: number;
  customer: string;
  number: string;
  /** Year, month, day: 2026-03-09. */
  date: string;
  paper: string;
}

/** `view` tells from where the chairs are seen. */
export interface QuoteRequest {
  order: Order;
  number: string;
  date: string;
  shop?: unknown;
  view?: View;
}

/** The object of an order.json. */
export interface Order {
  crestrail: string;
  name?: string;
  customer?: string;
  lines: { name?: string; quantity: number; knobs: Design; told?: Told }[];
}

/** What a customer was told of a chair. */
export interface Told {
  offer?: string;
  label?: { way: 'shown' | 'from'; currency: string; minor: number };
  size?: Pick<Overall, 'width' | 'depth' | 'height'>;
}

/** Boards of one size. */
export interface Stack {
  length: number;
  width: number;
  count: number;
  /** Price of one; 0 for what stands in the rack. */
  each_minor: number;
}

/** Pieces for which there is no board. */
export interface MissingPiece {
  design: number;
  letter: string;
  part: string;
  count: number;
  length: number;
  width: number;
}

/** Which boards one species and thickness take. */
export interface BoardsNeeded {
  species: string;
  thickness: string | null;
  thickness_mm: number;
  parts: string[];
  buy: Stack[];
  rack: Stack[];
  cost_minor: number;
  credit_minor: number;
  /** Share of the boards' area that ends as rough pieces. */
  yield: number;
  missing: MissingPiece[];
}

/** Boards that are sawn alike. */
export interface BoardPlan {
  origin: 'rack' | 'yard';
  length: number;
  width: number;
  times: number;
  yield: number;
}

/** How the boards of one species and thickness are sawn. */
export interface ClassPlan {
  species: string;
  thickness: string | null;
  thickness_mm: number;
  buy: Stack[];
  rack: Stack[];
  boards: BoardPlan[];
  missing: MissingPiece[];
  notes: string[];
}

export interface PlanRequest {
  order: Order;
  shop?: unknown;
  view?: Partial<View>;
  /** What lengths on the drawings are written in. */
  unit?: string;
}

export type PlanFile = 'plan_svg' | 'plan_csv' | 'plan_json';

/** The plan, and for each class a drawing of each of its boards. */
export interface Planned {
  plan: {
    currency: string;
    minor_digits: number;
    chairs: number;
    cost_minor: number;
    /** No plan with these boards costs less. */
    bound_minor: number;
    credit_minor: number;
    /** By how much the cost may lie above the best possible, as a share. */
    above_bound: number;
    yield: number;
    classes: ClassPlan[];
  };
  boards: string[][];
}

/** What a set of chairs takes. */
export interface SetRow {
  chairs: number;
  boards: number;
  cost_minor: number;
  bound_minor: number;
  credit_minor: number;
  each_minor: number;
  yield: number;
}

export interface PriceBreak {
  chairs: number;
  price_minor: number;
  total_minor: number;
  working_days?: number;
}

export interface OrderReport {
  chairs: number;
  rows: { name: string; quantity: number; price_minor: number; amount_minor: number }[];
  bill: Bill;
  lead?: Lead;
  breaks: { name: string; rows: PriceBreak[] }[];
}

export interface Overall {
  width: number;
  depth: number;
  height: number;
  seat_height: number;
  mass_kg: number;
  /** Without pegs. */
  parts: number;
  pegs?: number;
}

/** All that the page shows of one design. */
export interface Report {
  crestrail: string;
  design: Design;
  name?: string;
  overall: Overall;
  cutting_list: PartRow[];
  joints: JointRow[];
  assembly: AssemblyRow[];
  findings: Finding[];
  /** How many findings are sound, also where these are left out. */
  sound: number;
  fit?: Fit;
  timber: { lines: TimberLine[] };
  /** Absent where the workshop has no stock list. */
  boards?: BoardsNeeded[];
  /** Null where the workshop has no price for something. */
  bill: Bill | null;
  no_bill?: Refusal;
  /** Absent where the workshop's file has no times. */
  labour?: Labour;
  cautions: string[];
}

export interface StepRequest {
  design: Design;
  view: View;
  want: ('report' | 'picture')[];
  /** The findings that are sound are counted and left out. */
  leave?: 'sound'[];
  shop?: unknown;
}

export interface Stepped {
  report?: Report;
  picture?: string;
  /** With a picture, where the view keeps room for sizes. */
  dimensions?: Dimensions;
  marks: { resolve: number; report: number; picture: number };
}

/** Why a value of a knob does not hold. */
export interface Stop {
  /** The nearest such value; null for a choice. */
  value: number | null;
  /** What the failing check looked at; null where the chair cannot be built at all. */
  subject: string | null;
  topic: Finding['topic'] | null;
  say: string;
}

/** The last value that holds; without a stop the knob itself goes no further. */
export interface RangeEnd {
  value: number;
  stop: Stop | null;
}

/** How far one knob can be turned before something more fails. */
export interface SafeRange {
  knob: string;
  span?: { low: RangeEnd; high: RangeEnd };
  /** The other possibilities of a choice. */
  picks?: { name: string; stop: Stop | null }[];
}

/** What a slice of the search for safe ranges brings. */
export interface RangesSlice {
  ranges: SafeRange[];
  done: boolean;
  /** How many checks fail at the design itself. */
  failing: number;
  tried: number;
}

/** A chair on offer in the Showroom. */
export interface Offer {
  name: string;
  /** The kind of chair, in words. */
  kind: string;
  design: Design;
  /** The open knobs within what is allowed. */
  knobs: Knob[];
}

/** A showroom.json, read. */
export interface ShowroomRead {
  brand: string;
  line: string | null;
  contact: { mail: string; lines: string[] };
  colours: Record<'light' | 'dark', { colour: string; words: string }>;
  language: string;
  /** What the maker writes lengths in; null where that is not said. */
  lengths: string | null;
  price_note: string | null;
  /** Whether it stands without a workshop's book. */
  is_published: boolean;
  offers: Offer[];
  /** To be handed back in requests as it is. */
  showroom: { price: 'shown' | 'from' | 'none' };
}

/** What stands on the label of a chair. */
export interface Label extends Pick<Bill, 'currency' | 'minor_digits'> {
  /** Whether it is only the lowest price of the offer. */
  from: boolean;
  price_minor: number;
}

/** What customers are told of a design. */
export interface Seen {
  overall: Overall;
  concerns: { topic: Finding['topic']; verdict: 'close' | 'fails'; plain: string; knob: string | null }[];
  fit?: Fit;
  /** What can hurt whoever uses it. */
  cautions: string[];
  label?: Label;
}

export interface LookRequest {
  showroom: ShowroomRead['showroom'];
  offer: number;
  design: Design;
  shop?: unknown;
}

export interface Looked {
  seen?: Seen;
  picture?: string;
  /** With a picture, where the view keeps room for sizes. */
  dimensions?: Dimensions;
}

/** What a customer sent, checked. */
export interface CheckedIn {
  name: string;
  customer: string;
  lines: CheckedLine[];
}

export interface CheckedLine {
  name: string;
  quantity: number;
  design: Design;
  price: string | null;
  price_told: boolean;
  differences: { what: string; told: string; now: string; say: string; grave: boolean }[];
}

export type FileKind =
  | 'cutting_list_csv'
  | 'bill_csv'
  | 'report_json'
  | 'picture_svg'
  | 'parts_list_html';

export interface MadeFile {
  name: string;
  type: string;
  bytes: Uint8Array<ArrayBuffer>;
}

export interface Progress {
  done: number;
  total: number;
  words: string;
}

/** Each call of the core: what is asked, and what comes back. */
/** A drawing at full size; `pages` tells how many sheets of each paper it takes. */
export interface SheetRow {
  name: string;
  title: string;
  width: number;
  height: number;
  /** Whether it is drawn to a scale that suits the paper; it then has no width and height of its own. */
  scaled: boolean;
  /** Whether it is at full size, to be printed at 100 %. */
  full_size: boolean;
  pages: { paper: string; label: string; count: number }[];
}

/** A shape that can be saved by itself, and how many pieces have it. */
export interface ShapeRow {
  name: string;
  title: string;
  count: number;
}

/** One step of the order of work. */
export interface WorkStep {
  number: number;
  title: string;
  say: string[];
  letters: string[];
  tools: string[];
  clamps: { along: string; letter: string; count: number; opening: number; told: string }[];
  tapes: { say: string; length: number }[];
  checks: string[];
  cautions: { say: string; source: string }[];
  minutes?: number;
  wait_hours?: number;
}

export interface BenchStep {
  step: WorkStep;
  /** SVG; null for a step without a picture. */
  picture: string | null;
}

/** What is to be printed of the order of work. */
export interface WorkPrint {
  print: 'pages' | 'card';
  format: 'pdf' | 'svg';
  paper: string;
  unit: string;
}

/** What is to be saved of the solids; an empty part means the whole chair. */
export interface SolidsWish {
  format: 'glb' | 'stl' | 'step';
  part: string;
}

/** What is to be saved of the sheets. */
export interface SheetWish {
  sheet: string;
  format: 'pdf' | 'svg';
  paper: string;
  /** Of all figures. */
  unit: string;
}

/** What is to be bound as the bench book. */
export interface BookWish {
  paper: string;
  /** Of all figures. */
  unit: string;
}

/** The font files that a PDF takes in; empty for SVG. */
export interface SheetFonts {
  regular: Uint8Array;
  medium: Uint8Array;
}

export interface Calls {
  families: { request: null; answer: Answer<Kind[]> };
  /** Of a side chair where no kind is named. */
  knobs: { request: { family: string } | null; answer: Answer<Knob[]> };
  turnInto: { request: { design: Design; family: string }; answer: Answer<Turned> };
  step: { request: StepRequest; answer: Answer<Stepped> };
  readDesign: { request: string; answer: Answer<{ design: Design; name?: string; notes?: string[] }> };
  writeDesign: { request: { design: Design; name: string }; answer: Answer<string> };
  readLink: { request: string; answer: Answer<{ design: Design }> };
  writeLink: { request: Design; answer: Answer<string> };
  /** The invented workshop that comes with the program. */
  demoShop: { request: null; answer: Answer<unknown> };
  readShop: { request: string; answer: Answer<{ shop: unknown }> };
  readOrder: { request: string; answer: Answer<{ order: Order }> };
  /** Tables of prices by number come unless `want` leaves `breaks` out. */
  order: { request: { order: Order; shop?: unknown; want?: 'breaks'[] }; answer: Answer<OrderReport> };
  quote: { request: QuoteRequest; answer: Answer<string> };
  quotePdf: { request: { asked: QuoteRequest & { paper: string }; fonts: SheetFonts }; answer: Answer<MadeFile & { missing: string }> };
  /** The file of this program inside a PDF file. */
  readAttached: { request: Uint8Array; answer: Answer<{ text: string }> };
  plan: { request: PlanRequest & { effort: 'quick' | 'good' }; answer: Answer<Planned> };
  sets: { request: { design: Design; shop?: unknown }; answer: Answer<SetRow[]> };
  planFile: { request: PlanRequest & { kind: PlanFile; name: string; unit?: string }; answer: Answer<MadeFile> };
  tornado: { request: { design: Design; shop?: unknown }; answer: Answer<Tornado> };
  /** The next slice of the search around this design; another design begins another search. */
  ranges: { request: { design: Design; shop?: unknown; ms: number }; answer: Answer<RangesSlice> };
  nearest: { request: { design: Design; shop?: unknown; showroom?: unknown }; answer: Answer<{ knob: string; value: Value; say?: string }> };
  makeItFit: { request: { design: Design; shop?: unknown }; answer: Answer<Fitted> };
  /** Of the invented workshop where the text is null. */
  readShowroom: { request: string | null; answer: Answer<ShowroomRead> };
  offerOf: { request: { showroom: unknown; design: Design; offer?: number }; answer: Answer<number> };
  lookAt: { request: LookRequest & { view: View; want: ('seen' | 'picture')[] }; answer: Answer<Looked> };
  publishShowroom: { request: { showroom: unknown; shop?: unknown }; answer: Answer<{ showroom: ShowroomRead['showroom'] }> };
  writeToldLink: { request: { design: Design; label?: Label }; answer: Answer<string> };
  checkIn: { request: { text: string; shop?: unknown; showroom?: unknown }; answer: Answer<CheckedIn> };
  file: {
    request: { kind: FileKind; design: Design; name?: string; view?: View; shop?: unknown; unit?: string };
    answer: Answer<MadeFile>;
  };
  shapes: { request: { design: Design; shop?: unknown }; answer: Answer<ShapeRow[]> };
  exchange: { request: SolidsWish & { stamp: string; design: Design; name?: string; shop?: unknown }; answer: Answer<MadeFile> };
  work: { request: { design: Design; shop?: unknown; view: Partial<View>; unit?: string }; answer: Answer<BenchStep[]> };
  workPages: {
    request: { wish: WorkPrint & { design: Design; name?: string; shop?: unknown }; fonts: SheetFonts };
    answer: Answer<MadeFile & { missing: string }>;
  };
  sheets: { request: { design: Design; shop?: unknown; unit?: string }; answer: Answer<SheetRow[]> };
  /** `missing`: characters that stand in the file as empty boxes. */
  sheet: {
    request: { wish: SheetWish & { design: Design; name?: string; date?: string; shop?: unknown }; fonts: SheetFonts };
    answer: Answer<MadeFile & { missing: string }>;
  };
  benchBook: {
    request: { wish: BookWish & { design: Design; name?: string; date?: string; shop?: unknown }; fonts: SheetFonts };
    answer: Answer<MadeFile & { missing: string }>;
  };
}

export type Call = keyof Calls;

/** From the page to the worker. */
export interface Question {
  id: number;
  call: Call;
  request: unknown;
}

/** From the worker to the page. */
export type Reply =
  | { ready: true }
  /** The core cannot go on; the page starts a new worker. */
  | { id?: number; broken: string }
  | { id: number; progress: Progress }
  | { id: number; answer: Answer<unknown> };
