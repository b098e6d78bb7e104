// The shapes of dimension lines over the picture, as the core tells them.

/** A place on the picture, CSS pixels from its upper left corner. */
export type Spot = [x: number, y: number];

/** Where the end of a line is at some values of its knob, in their order: value, x, y; straight between neighbours. */
export type Track = [value: number, x: number, y: number][];

/** Scale and place of a picture, to be kept while a size is dragged. */
export interface Held {
  /** Pixels per millimetre. */
  scale: number;
  /** The point of the camera's picture that stands in the middle, mm. */
  focus: readonly [number, number];
}

/** What the core minds when it lays dimension lines. */
export interface DimensionRoom {
  /** Width and height of the widest figure. */
  figure: [number, number];
  /** Boxes in which something else stands: left, top, right, bottom. */
  clear: [number, number, number, number][];
}

export interface DimensionRow {
  knob: string;
  kind: 'length' | 'angle' | 'count';
  value: number;
  /** The line between its arrows, or an arc; empty for a count. */
  line: Spot[];
  /** Thin lines that lead to it. */
  aids: [Spot, Spot][];
  /** One for each end that can be moved. */
  tracks: Track[];
  /** Middle of the figure. */
  label: Spot;
}

export interface Dimensions {
  held: Held;
  /** Scale and place that it would have if none were held. */
  fit: Held;
  /** How many steps its order of assembly has. */
  steps: number;
  rows: DimensionRow[];
}
