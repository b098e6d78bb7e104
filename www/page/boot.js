// Says what is wrong where the page's own scripts or styles did not come, were cut off on the way, or stop at the start. It stands before
// them and takes nothing from them; what it says stands in the page.

/** How long the page may take before it is said that the connection is slow, in milliseconds. */
const PATIENCE = 12_000;

const root = document.documentElement;
const box = /** @type {HTMLElement} */ (document.getElementById('trouble'));

/** @param {'load' | 'slow'} kind */
function tell(kind) {
  if (root.dataset.ready !== undefined || !box.hidden) return;
  for (const words of /** @type {NodeListOf<HTMLElement>} */ (box.querySelectorAll('[data-trouble]'))) words.hidden = words.dataset.trouble !== kind;
  box.dataset.kind = kind;
  box.hidden = false;
  box.scrollIntoView({ block: 'nearest' });
  // In the reader's language, if its words have come.
  import('./words.js').then(
    ({ fillWords }) => fillWords(box),
    () => {},
  );
}

/** Whether an element of the page brings what it cannot do without. @param {EventTarget | null} element */
function matters(element) {
  return element instanceof HTMLScriptElement || (element instanceof HTMLLinkElement && element.relList.contains('stylesheet'));
}

// An element's fault does not bubble; a script's own reaches the window.
addEventListener('error', (event) => (event.target === window || matters(event.target)) && tell('load'), true);
// Style sheets come before scripts. One that did not come is absent in some browsers and empty in others; ours are never empty.
const sheets = /** @type {HTMLLinkElement[]} */ ([...document.querySelectorAll('link[rel="stylesheet"]:not([media])')]);
if (sheets.some(({ sheet }) => !sheet?.cssRules.length)) tell('load');
setTimeout(() => tell('slow'), PATIENCE);
new MutationObserver(() => {
  if (root.dataset.ready !== undefined && box.dataset.kind === 'slow') box.hidden = true;
}).observe(root, { attributeFilter: ['data-ready'] });
document.getElementById('trouble-again')?.addEventListener('click', () => location.reload());
