// For the single file: what lies inside the page as text.

/**
 * The text of an element that the packer put in.
 * @param {string} id
 */
export function inside(id) {
  const text = document.getElementById(id)?.textContent;
  if (!text) throw new Error(`This file is not whole: its part “${id}” is missing.`);
  return text;
}

/** @param {string} id of an element that holds base64 */
export function bytesInside(id) {
  const text = atob(inside(id).trim());
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}
