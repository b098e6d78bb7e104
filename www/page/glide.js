/** How long a glide from one end to the other takes, in milliseconds. */
const WHOLE = 900;

/**
 * Moves a number from where it is to where it goes, a frame at a time; at once where motion is not wanted.
 * @param {number} from
 * @param {number} to
 * @param {(value: number) => void} show
 * @returns {() => void} stops it
 */
export function glide(from, to, show) {
  if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
    show(to);
    return () => {};
  }
  const length = WHOLE * Math.max(0.3, Math.abs(to - from));
  const start = performance.now();
  let frame = requestAnimationFrame(function step(now) {
    const share = Math.min(1, Math.max(0, (now - start) / length));
    const eased = share * share * (3 - 2 * share);
    show(from + (to - from) * eased);
    if (share < 1) frame = requestAnimationFrame(step);
  });
  return () => cancelAnimationFrame(frame);
}
