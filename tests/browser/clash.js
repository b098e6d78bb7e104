// A chair that cannot be built, found by asking the core itself: which sizes clash changes as the core
// learns to give way, that some do does not.
import { spawn } from 'node:child_process';
import { dirname, join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
/** So many designs are tried. */
const TRIES = 600;

/**
 * A design that is refused for more than one knob, of which one can mend it, and the labels of these knobs.
 * @returns {Promise<{ design: Record<string, unknown>, labels: string[] }>}
 */
export async function findClash() {
  const probe = spawn('cargo', ['run', '--quiet', '-p', 'crestrail-tests', '--bin', 'probe'], { cwd: root, stdio: ['pipe', 'pipe', 'inherit'] });
  const lines = createInterface({ input: probe.stdout })[Symbol.asyncIterator]();
  const ask = async (request) => {
    probe.stdin.write(`${JSON.stringify(request)}\n`);
    return JSON.parse((await lines.next()).value);
  };
  try {
    const { ok: knobs } = await ask({ ask: 'knobs' });
    for (const design of corners(knobs)) {
      const { error } = await ask({ ask: 'report', design });
      if (error?.where !== 'build' || !error.mend || error.knobs.length < 2) continue;
      return { design, labels: error.knobs.map((name) => knobs.find((knob) => knob.name === name).label) };
    }
  } finally {
    probe.kill();
  }
  throw new Error(`none of ${TRIES} designs with every knob at an end is refused and can be mended`);
}

/** Designs with every knob at one of its ends, from a fixed run of numbers (Park and Miller’s generator). */
function* corners(knobs) {
  let state = 20_431;
  const coin = () => (state = (state * 48_271) % 2_147_483_647) % 2;
  for (let i = 0; i < TRIES; i++) {
    const end = ({ kind, min, max, choices }) => (kind === 'choice' ? choices[coin() * (choices.length - 1)].name : [min, max][coin()]);
    yield Object.fromEntries(knobs.map((knob) => [knob.name, end(knob)]));
  }
}
