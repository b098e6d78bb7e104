// What a look at a page in any state can find: what keeps somebody from reading or using it.
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { HtmlValidate } from 'html-validate';

const engine = await readFile(fileURLToPath(import.meta.resolve('axe-core/axe.min.js')), 'utf8');
/** The levels A and AA of WCAG 2.0 to 2.2, and what the engine's makers hold to be good practice. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/**
 * Runs axe-core over a part of a page; gives a line for each fault.
 * @param {import('playwright-core').Page | import('playwright-core').Frame} room
 * @param {string} [part] all of it without
 */
export async function faultsByAxe(room, part) {
  // Through the driver, which the page's own policy does not bind.
  if (!(await room.evaluate(() => 'axe' in globalThis))) await room.evaluate(engine);
  return room.evaluate(
    async ([where, tags]) => {
      const { violations } = await axe.run(where ?? document, { runOnly: { type: 'tag', values: tags }, resultTypes: ['violations'], iframes: false, preload: false });
      return violations.flatMap(({ id, nodes }) => nodes.map(({ target, html, failureSummary }) => `${id}: ${target.join(' ')} ${html.slice(0, 120)} ${failureSummary.replace(/\s+/g, ' ').slice(0, 260)}`));
    },
    [part ?? null, TAGS],
  );
}
/** Runs in the page. What is cut off or sticks out of it: texts whose own box is too small, and boxes beyond the window. */
export function outside() {
  const found = [];
  const width = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth > width) found.push(`the page is ${document.documentElement.scrollWidth} wide in a window of ${width}`);
  const scrolls = (element) => {
    for (let at = element; at; at = at.parentElement) if (['auto', 'scroll'].includes(getComputedStyle(at).overflowX)) return true;
    return false;
  };
  for (const element of document.body.querySelectorAll('*')) {
    if (element.closest('svg, .unseen, [hidden], select, .skip') || !element.checkVisibility({ visibilityProperty: true })) continue;
    const own = [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim() !== '');
    if (!own) continue;
    const style = getComputedStyle(element);
    if (style.clipPath !== 'none') continue;
    const [box, says] = [element.getBoundingClientRect(), element.textContent.trim().slice(0, 60)];
    if (box.width === 0 || scrolls(element)) continue;
    if ((box.left < -1 || box.right > width + 1) && !scrolls(element.parentElement)) found.push(`beyond the window: ${element.className} “${says}”`);
    if (style.overflowX !== 'visible' && element.scrollWidth > element.clientWidth + 1 && style.textOverflow !== 'ellipsis') found.push(`cut off: ${element.className} “${says}”`);
    if (style.overflowX === 'visible' && style.display !== 'inline' && element.scrollWidth > element.clientWidth + 2 && element.clientWidth > 0) found.push(`sticks out: ${element.tagName} ${element.className} “${says}”`);
  }
  return found;
}

