/** @import { Bridge } from './bridge.js' */
/** @import { Kinds } from './kinds.js' */
/** @import { LookRequest } from './messages.d.ts' */

/** The view of the small drawings: three-quarter, without letters, on a square large enough for fine lines. */
const VIEW = /** @type {const} */ ({ turn: -32, tilt: 14, spread: 0, scheme: 'light', letters: false, colour: 'wood', width: 320, height: 320 });

/**
 * Has the core draw each kind in its first sizes, one at a time and only when nobody waits for anything else.
 * @param {Bridge} bridge
 * @param {Kinds} kinds
 */
export async function drawKinds(bridge, kinds) {
  for (const family of kinds.bare) {
    await rest(bridge);
    const answer = await bridge.ask('step', { design: { family }, view: VIEW, want: ['report', 'picture'] });
    const { picture, report } = answer.ok ?? {};
    if (picture && report) kinds.draw(family, picture, report.overall.height);
    if (answer.error?.where === 'worker') return;
  }
}

/**
 * The same for the chairs on offer in the Showroom, each as it begins.
 * @param {Bridge} bridge
 * @param {Kinds} kinds
 * @param {(offer: number) => LookRequest} request what to ask of an offer, but for view and wants
 */
export async function drawOffers(bridge, kinds, request) {
  for (const name of kinds.bare) {
    await rest(bridge);
    const answer = await bridge.ask('lookAt', { ...request(Number(name)), view: VIEW, want: ['seen', 'picture'] });
    const { picture, seen } = answer.ok ?? {};
    if (picture && seen) kinds.draw(name, picture, seen.overall.height);
    if (answer.error?.where === 'worker') return;
  }
}

/** Waits until page and worker have nothing else to do. @param {Bridge} bridge */
async function rest(bridge) {
  do {
    await new Promise((done) => ('requestIdleCallback' in globalThis ? requestIdleCallback(done) : setTimeout(done, 50)));
  } while (!bridge.idle);
}
