// What a look at a page in any state can find: what keeps somebody from reading or using it.
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { HtmlValidate } from 'html-validate';

const engine = await readFile(fileURLToPath(import.meta.resolve('axe-core/axe.min.js')), 'utf8');
/**
 * As a browser serialises a page: what scripts set by `style` is the policy's affair, and how attributes are spelt nobody's. Tables name their
 * roles because a style sheet that lays rows out as blocks takes them away (CSS 2.2, 17; Core Accessibility API Mappings); labels name their
 * fields besides holding them, for programs that know only the one or the other.
 */
const serialised = new HtmlValidate({
  root: true,
  extends: ['html-validate:recommended'],
  rules: { 'no-trailing-whitespace': 'off', 'no-inline-style': 'off', 'attribute-boolean-style': 'off', 'attribute-empty-style': 'off', 'no-implicit-input-type': 'off', 'no-raw-characters': 'off', 'no-redundant-role': 'off', 'no-redundant-for': 'off', 'aria-label-misuse': ['error', { allowAnyNamable: true }] },
});
/** As it is packed: every rule that the makers of html-validate recommend. Forms get their fields and buttons from scripts. */
const packed = new HtmlValidate({ root: true, extends: ['html-validate:recommended'], rules: { 'wcag/h32': 'off', 'no-trailing-whitespace': 'off' } });

/** The levels A and AA of WCAG 2.0 to 2.2, and what the engine's makers hold to be good practice. */
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/**
 * Runs axe-core over a part of a page; gives a line for each fault. Its rule for the size of targets takes what is scrolled behind the foot for
 * small; `smallTargets` has its own measure.
 * @param {import('playwright-core').Page | import('playwright-core').Frame} room
 * @param {string} [part] all of it without
 */
export async function faultsByAxe(room, part) {
  // Through the driver, which the page's own policy does not bind.
  if (!(await room.evaluate(() => 'axe' in globalThis))) await room.evaluate(engine);
  return room.evaluate(
    async ([where, tags]) => {
      const { violations } = await axe.run(where ?? document, { runOnly: { type: 'tag', values: tags }, rules: { 'target-size': { enabled: false } }, resultTypes: ['violations'], iframes: false, preload: false });
      return violations.flatMap(({ id, nodes }) => nodes.map(({ target, html, failureSummary }) => `${id}: ${target.join(' ')} ${html.slice(0, 120)} ${failureSummary.replace(/\s+/g, ' ').slice(0, 260)}`));
    },
    [part ?? null, TAGS],
  );
}
const told = (/** @type {import('html-validate').Report} */ { results }) => results.flatMap(({ messages }) => messages.map(({ line, ruleId, message, selector }) => `${ruleId}: ${message} (${selector ?? line})`));

/** What is wrong with a page's HTML as a file. @param {string} path */
export async function faultsOfFile(path) {
  // What stands within scripts and styles is not HTML; in the single file that is nearly all.
  const html = (await readFile(path, 'utf8')).replace(/(<(script|style)\b[^>]*>)[\s\S]*?(?=<\/\2>)/g, '$1');
  return told(await packed.validateString(html, path));
}

/** What is wrong with a page's HTML as it stands. @param {import('playwright-core').Page | import('playwright-core').Frame} room */
export async function faultsOfMarkup(room) {
  const html = await room.evaluate(() => {
    const copy = /** @type {HTMLElement} */ (document.documentElement.cloneNode(true));
    // The drawings are XML of the core, which its own tests read; scripts and styles are no HTML.
    for (const other of copy.querySelectorAll('svg, script, style')) other.replaceChildren();
    return `<!DOCTYPE html>\n${copy.outerHTML}`;
  });
  return told(await serialised.validateString(html));
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
    if (style.overflowY === 'hidden' && element.scrollHeight > element.clientHeight + 2) found.push(`cut off below: ${element.className} “${says}”`);
  }
  return found;
}


/**
 * Runs in the page. Targets smaller than 24 × 24 CSS px that have not the room of such a one around them either, and are no link within a
 * sentence (WCAG 2.2, 2.5.8). A radio button or tick has the target of its label.
 */
export function smallTargets() {
  const LEAST = 24;
  const CONTROLS = 'a[href], button, input, select, textarea, summary, [role="slider"], [role="button"], [role="tab"], [tabindex="0"]';
  const over = [...document.querySelectorAll('dialog[open], [popover]:popover-open')].at(-1);
  const boxOf = (control) => {
    const label = control.matches('[type="radio"], [type="checkbox"]') ? control.closest('label') : null;
    return (label ?? control).getBoundingClientRect();
  };
  const inSentence = (control) => control.matches('a') && getComputedStyle(control).display === 'inline' && control.parentElement.textContent.trim() !== control.textContent.trim();
  const targets = [...(over ?? document.body).querySelectorAll(CONTROLS)]
    .filter((control) => control.checkVisibility({ visibilityProperty: true }) && !control.closest('.skip, .unseen') && getComputedStyle(control).pointerEvents !== 'none')
    .map((control) => ({ control, box: boxOf(control) }))
    .filter(({ box }) => box.width > 0);
  const isSmall = ({ box }) => box.width < LEAST - 0.5 || box.height < LEAST - 0.5;
  const middle = ({ box }) => [box.left + box.width / 2, box.top + box.height / 2];
  const near = (one, other) => {
    const [x, y] = middle(one);
    if (isSmall(other)) {
      const [u, v] = middle(other);
      return Math.hypot(x - u, y - v) < LEAST;
    }
    const [dx, dy] = [Math.max(other.box.left - x, x - other.box.right, 0), Math.max(other.box.top - y, y - other.box.bottom, 0)];
    return Math.hypot(dx, dy) < LEAST / 2;
  };
  const apart = (one, other) => !one.control.contains(other.control) && !other.control.contains(one.control) && one.control.closest('label') !== (other.control.closest('label') ?? 0);
  return targets
    .filter((one) => isSmall(one) && !inSentence(one.control) && targets.some((other) => other !== one && apart(one, other) && near(one, other)))
    .map(({ control, box }) => `a target of ${box.width.toFixed(0)} × ${box.height.toFixed(0)} px: ${control.outerHTML.slice(0, 140)}`);
}

/**
 * Runs in the page. Controls on which nobody sees that they have the focus: no outline of 2 px that stands out at 3 to 1 from what is behind it
 * (WCAG 2.2, 2.4.7, 2.4.13 and 1.4.11), or wholly covered by something else (2.4.11).
 */
export function focusUnseen() {
  const over = [...document.querySelectorAll('dialog[open], [popover]:popover-open')].at(-1);
  const canvas = new OffscreenCanvas(1, 1).getContext('2d', { willReadFrequently: true });
  const rgba = (colour) => {
    canvas.clearRect(0, 0, 1, 1);
    canvas.fillStyle = colour;
    canvas.fillRect(0, 0, 1, 1);
    return [...canvas.getImageData(0, 0, 1, 1).data];
  };
  const light = (colour) => {
    const [r, g, b] = rgba(colour).slice(0, 3).map((c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ratio = (a, b) => (Math.max(light(a), light(b)) + 0.05) / (Math.min(light(a), light(b)) + 0.05);
  const behind = (element) => {
    for (let at = element; at; at = at.parentElement) if (rgba(getComputedStyle(at).backgroundColor)[3] === 255) return getComputedStyle(at).backgroundColor;
    return 'white';
  };
  const ringed = (element) => {
    const { outlineStyle, outlineWidth, outlineColor, outlineOffset } = getComputedStyle(element);
    if (outlineStyle === 'none') return false;
    if (outlineStyle === 'auto') return true;
    const around = parseFloat(outlineOffset) < 0 ? element : element.parentElement;
    return parseFloat(outlineWidth) >= 2 && ratio(outlineColor, behind(around)) >= 3;
  };
  const found = [];
  // What has the focus already would not be given the visible one.
  document.activeElement?.blur();
  for (const control of (over ?? document.body).querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex]:not([tabindex="-1"])')) {
    if (control.tabIndex < 0 || control.disabled || !control.checkVisibility({ visibilityProperty: true })) continue;
    control.focus({ focusVisible: true });
    if (document.activeElement !== control) continue;
    const says = control.outerHTML.slice(0, 140);
    const rings = [control, control.nextElementSibling, control.parentElement, control.closest('label'), control.closest('.ruler')].filter(Boolean);
    if (!rings.some(ringed)) found.push(`its focus is not seen: ${says}`);
    const box = control.getBoundingClientRect();
    const [left, top] = [Math.max(0, box.left), Math.max(0, box.top)];
    const [width, height] = [Math.min(innerWidth, box.right) - left, Math.min(innerHeight, box.bottom) - top];
    const spots = [[0.5, 0.5], [0.1, 0.2], [0.9, 0.2], [0.1, 0.8], [0.9, 0.8]].map(([x, y]) => document.elementFromPoint(left + x * width, top + y * height));
    const label = control.closest('label');
    if (!spots.some((spot) => spot && (control.contains(spot) || spot.contains(control) || label?.contains(spot)))) found.push(`covered while it has the focus: ${says}`);
  }
  return found;
}
