// Two fingers, or the wheel, take the chair apart and put it together.

/** Of the smaller side of the picture, how far two fingers must part to take the chair wholly apart. */
const FINGERS = 0.7;
/** How many pixels of the wheel do the same. */
const WHEEL = 900;
/** Height of a line where the wheel counts lines, px. */
const LINE = 16;

/**
 * Hears two fingers and the wheel on an element. The wheel belongs to the page, but with Ctrl held (so browsers also tell two
 * fingers on a touchpad), or while the element has the keyboard's focus and there is way left to go.
 * @param {HTMLElement} element
 * @param {(by: number) => void} spread told a share of the whole way, apart or together
 * @param {() => number} at how far apart it is
 * @returns {() => boolean} whether two fingers are down
 */
export function listenForSpreading(element, spread, at) {
  /** @type {Map<number, [x: number, y: number]>} */
  const fingers = new Map();
  let far = 0;
  const apart = () => {
    const [a, b] = [...fingers.values()];
    return a && b ? Math.hypot(a[0] - b[0], a[1] - b[1]) : 0;
  };
  element.addEventListener('pointerdown', (event) => {
    if (event.pointerType === 'touch' && fingers.size < 2) fingers.set(event.pointerId, [event.clientX, event.clientY]);
    far = apart();
  });
  element.addEventListener('pointermove', (event) => {
    if (!fingers.has(event.pointerId)) return;
    fingers.set(event.pointerId, [event.clientX, event.clientY]);
    if (fingers.size < 2) return;
    const now = apart();
    spread((now - far) / (FINGERS * Math.min(element.clientWidth, element.clientHeight)));
    far = now;
  });
  for (const end of ['pointerup', 'pointercancel']) element.addEventListener(end, (event) => fingers.delete(/** @type {PointerEvent} */ (event).pointerId));
  element.addEventListener(
    'wheel',
    (event) => {
      const by = (-event.deltaY * (event.deltaMode === WheelEvent.DOM_DELTA_LINE ? LINE : 1)) / WHEEL;
      const isLeft = by > 0 ? at() < 1 : at() > 0;
      if (!event.ctrlKey && !(element.matches(':focus-visible') && isLeft)) return;
      event.preventDefault();
      if (isLeft) spread(by);
    },
    { passive: false },
  );
  return () => fingers.size > 1;
}
