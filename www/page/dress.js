/** @import { ShowroomRead } from './messages.d.ts' */

/** @typedef {{ accent?: string, paper?: string, ink?: string }} HostColours as a host page gives them */

/** Dresses the page in the workshop's colour, or in those of the page around it. */
export class Dress {
  /** @type {ShowroomRead['colours'] | undefined} */
  #own;
  /** @type {HostColours} */
  #host = {};
  /** @type {'light' | 'dark'} */
  #scheme = 'light';

  /** @param {ShowroomRead['colours']} colours */
  own(colours) {
    this.#own = colours;
    this.#put();
  }

  /** What is no colour is let go. @param {HostColours} colours */
  host(colours) {
    this.#host = Object.fromEntries(Object.entries(colours).filter(([, colour]) => CSS.supports('color', colour)));
    this.#put();
  }

  /** @param {'light' | 'dark'} shown */
  scheme(shown) {
    this.#scheme = shown;
    this.#put();
  }

  #put() {
    const { accent, paper, ink } = this.#host;
    const own = this.#own?.[this.#scheme];
    const mark = accent ?? own?.colour;
    set({
      '--mark': mark,
      '--mark-wash': mark && mix(mark, 9, 'transparent'),
      '--on-mark': accent ? wordsOn(accent) : own?.words,
      '--paper': paper,
      '--sheet': paper,
      '--ink': ink,
      '--ink-soft': ink && mix(ink, 72, paper ?? 'transparent'),
      '--tick': ink && mix(ink, 50, paper ?? 'transparent'),
      '--rule': ink && mix(ink, 24, paper ?? 'transparent'),
    });
  }
}

/** @param {Record<string, string | undefined>} properties */
function set(properties) {
  const { style } = document.documentElement;
  for (const [name, value] of Object.entries(properties)) {
    if (value) style.setProperty(name, value);
    else style.removeProperty(name);
  }
}

/** @param {string} colour @param {number} percent @param {string} other */
function mix(colour, percent, other) {
  return `color-mix(in srgb, ${colour} ${percent}%, ${other})`;
}

/**
 * Black or white, whichever is read better on a colour (WCAG 2.2, contrast ratio: the two are equal at a luminance of 0.179).
 * @param {string} colour any that the browser knows
 */
function wordsOn(colour) {
  const probe = document.createElement('span');
  probe.style.color = colour;
  document.documentElement.append(probe);
  const [r = 0, g = 0, b = 0] = (getComputedStyle(probe).color.match(/[\d.]+/g) ?? []).map((figure) => Number(figure) / 255);
  probe.remove();
  const linear = (/** @type {number} */ c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  return 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b) > 0.179 ? '#000000' : '#ffffff';
}
