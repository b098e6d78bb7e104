// Where the end of a dimension line is for a value of its knob, and back.

/** @import { DimensionRow, Spot, Track } from './dimension-data.d.ts' */

/**
 * The place of the end at a value; beyond the ends of the track straight on.
 * @param {Track} track @param {number} value
 * @returns {Spot}
 */
export function spotAt(track, value) {
  const i = Math.min(
    track.length - 2,
    Math.max(0, track.findIndex(([next]) => value <= next) - 1, value > (track.at(-1)?.[0] ?? 0) ? track.length - 2 : 0),
  );
  const [[from, x0, y0], [to, x1, y1]] = pair(track, i);
  const share = (value - from) / (to - from);
  return [x0 + (x1 - x0) * share, y0 + (y1 - y0) * share];
}

/**
 * The value at which the end is nearest to a place.
 * @param {Track} track @param {Spot} place
 */
export function valueAt(track, [x, y]) {
  let best = { far: Infinity, value: track[0]?.[0] ?? 0 };
  for (let i = 0; i + 1 < track.length; i += 1) {
    const [[from, x0, y0], [to, x1, y1]] = pair(track, i);
    const [wx, wy] = [x1 - x0, y1 - y0];
    const share = ((x - x0) * wx + (y - y0) * wy) / (wx * wx + wy * wy || 1);
    const least = i === 0 ? -Infinity : 0;
    const most = i + 2 === track.length ? Infinity : 1;
    const at = Math.min(most, Math.max(least, share));
    const far = Math.hypot(x0 + wx * at - x, y0 + wy * at - y);
    if (far < best.far) best = { far, value: from + (to - from) * at };
  }
  return best.value;
}

/**
 * The part of the track between two values, as SVG writes a path.
 * @param {Track} track @param {number} low @param {number} high
 */
export function pathBetween(track, low, high) {
  return pathOf(spotsBetween(track, low, high));
}

/** @param {Track} track @param {number} low @param {number} high */
function spotsBetween(track, low, high) {
  const inner = track.filter(([value]) => value > low && value < high).map(([, x, y]) => /** @type {Spot} */ ([x, y]));
  return [spotAt(track, low), ...inner, spotAt(track, high)];
}

/** @param {Spot[]} spots */
export function pathOf(spots) {
  return spots.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');
}

/**
 * A dimension at another value, as its tracks tell: the ends that move go on, an arc is drawn anew.
 * @param {DimensionRow} row @param {number} value
 * @returns {DimensionRow}
 */
export function carried(row, value) {
  const { kind, line, tracks } = row;
  const [track] = tracks;
  if (!track || kind === 'count') return row;
  if (kind === 'angle') return { ...row, value, line: spotsBetween(track, Math.min(0, value), Math.max(0, value)) };
  const moves = tracks.map((own) => ({ from: spotAt(own, row.value), to: spotAt(own, value) }));
  const moved = (/** @type {Spot} */ [x, y]) => moves.find(({ from }) => Math.hypot(from[0] - x, from[1] - y) < 0.5)?.to ?? /** @type {Spot} */ ([x, y]);
  return { ...row, value, line: line.map(moved) };
}

/** @param {Track} track @param {number} i */
function pair(track, i) {
  return /** @type {[Track[number], Track[number]]} */ ([track[i], track[i + 1]]);
}
