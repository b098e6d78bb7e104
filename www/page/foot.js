/** So much of the window may the foot of the sheet cover while the sheet scrolls behind it. */
const MOST = 0.18;

/**
 * Lets the foot stand at the end of the sheet, no longer at that of the window, where it would leave too little of it: in a low window,
 * with large letters, with long figures (WCAG 2.2, 1.4.4, 1.4.10 and 2.4.11).
 * @param {HTMLElement} foot
 */
export function keepLow(foot) {
  const look = () => {
    const { classList, style } = document.documentElement;
    const isTall = foot.offsetHeight > MOST * innerHeight;
    classList.toggle('tall-foot', isTall);
    // What has the focus is scrolled clear of it.
    style.setProperty('--foot', isTall ? '0px' : `${foot.offsetHeight}px`);
  };
  new ResizeObserver(look).observe(foot);
  addEventListener('resize', look);
}
