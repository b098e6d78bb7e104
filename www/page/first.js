// The first chair as it was written into the page (early.js says whether it is the one to be shown here): the live one takes its place.

/**
 * The picture of the first chair; where another one is to be shown, it goes.
 * @param {HTMLElement} container of pictures
 * @returns {Element | null}
 */
export function firstPicture(container) {
  const first = container.querySelector(':scope > .first');
  if (document.documentElement.dataset.first !== 'none') return first;
  first?.remove();
  return null;
}

/**
 * Whether what stands at the foot is that of the chair to be shown, and so stays until it is known anew. Whoever asks sees to
 * it himself from then on.
 */
export function standsAtFoot() {
  const { dataset } = document.documentElement;
  const stands = dataset.first === 'whole';
  delete dataset.first;
  return stands;
}
