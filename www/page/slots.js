import { NAMES, remember, remembered } from './store.js';

/** So many tabs have a place of their own for their design. */
const MOST_TABS = 9;

/** The places of a kind, the first of them the one that a single tab has. @param {string} base */
function placesOf(base) {
  return [base, ...Array.from({ length: MOST_TABS - 1 }, (_, i) => `${base}-${i + 2}`)];
}

/**
 * The place where this tab keeps its design, so that two tabs never write over each other: the first that no other open tab
 * has, and after loading anew the same as before. Where the browser knows no locks, or all are taken, it is the first.
 * @param {string} base
 * @returns {Promise<string>}
 */
export async function claimPlace(base) {
  const places = placesOf(base);
  const had = remembered(`${base}-place`);
  const wished = had !== null && places.includes(had) ? [had, ...places] : places;
  for (const place of wished) {
    if (!(await hold(place))) continue;
    remember(`${base}-place`, place);
    return place;
  }
  return base;
}

/**
 * Places other than this tab's own that no open tab has.
 * @param {string} base @param {string} own
 * @returns {Promise<string[]>}
 */
export async function freePlaces(base, own) {
  try {
    const { held = [] } = await navigator.locks.query();
    const taken = new Set(held.map(({ name }) => name));
    return placesOf(base).filter((place) => place !== own && !taken.has(NAMES + place));
  } catch {
    // Without locks nobody knows which tabs are open: what they keep is left to them.
    return [];
  }
}

/** Takes a place for as long as this page is open. @param {string} place @returns {Promise<boolean>} whether it was free */
function hold(place) {
  if (!navigator.locks) return Promise.resolve(true);
  const { promise, resolve } = Promise.withResolvers();
  const held = navigator.locks.request(NAMES + place, { ifAvailable: true }, (lock) => {
    resolve(lock !== null);
    return lock ? new Promise(() => {}) : undefined;
  });
  // A browser that keeps nothing may know no locks either; then nothing can be written over.
  held.catch(() => resolve(true));
  return promise;
}
