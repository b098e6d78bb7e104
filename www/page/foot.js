/** So much of the window may the foot of the sheet cover while the sheet scrolls behind it. */
const MOST = 0.18;

/**
 * Lets the foot stand at the end of the sheet, no longer at that of the window, where it would leave too little of it: in a low window,
 * with large letters, with long figures (WCAG 2.2, 1.4.4, 1.4.10 and 2.4.11).
 * @param {HTMLElement} foot
 */
export function keepLow(foot) {
  const look = () => document.documentElement.classList.toggle('tall-foot', foot.offsetHeight > MOST * innerHeight);
  new ResizeObserver(look).observe(foot);
  addEventListener('resize', look);
}
