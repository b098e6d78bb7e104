// What the habits of the page are made of: steps back, the shelf, a chair from a number. Values only, without a browser.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { History, MOST_STEPS } from '../../www/page/history.js';
import { added, joined, MOST_KEPT, read, renamed, without, written } from '../../www/page/shelf.js';
import { drawChair, numbers } from '../../www/page/surprise.js';

const at = (seat, name = '') => ({ design: { family: 'side', seat_height: seat }, name });
const seats = (history) => {
  const found = [];
  for (let one = history; ; one = one.undo()) {
    found.unshift(one.present.design.seat_height);
    if (!one.canUndo) return found;
  }
};

describe('steps back', () => {
  test('a run of one knob is one step, and another run another', () => {
    let history = new History().note(at(440));
    for (const seat of [441, 442, 443]) history = history.note(at(seat), 'seat 1');
    for (const seat of [444, 445]) history = history.note(at(seat), 'seat 2');
    assert.deepEqual(seats(history), [440, 443, 445]);
    assert.equal(history.undo().undo().redo().present.design.seat_height, 443);
  });

  test('a drag that ends where it began is no step', () => {
    let history = new History().note(at(440));
    for (const seat of [450, 440]) history = history.note(at(seat), 'seat 1');
    assert.deepEqual(seats(history), [440]);
    assert.deepEqual(seats(history.note(at(460), 'seat 1')), [440, 460], 'and it may go on from there');
  });

  test('what was taken back is gone after a new step, and a name is no step', () => {
    const history = [440, 450, 460].reduce((made, seat) => made.note(at(seat)), new History()).undo().undo().note(at(470));
    assert.deepEqual(seats(history), [440, 470]);
    assert.equal(history.canRedo, false);
    const named = history.note(at(470, 'Kitchen'));
    assert.deepEqual(seats(named), [440, 470]);
    assert.equal(named.present.name, 'Kitchen');
  });

  test('there is an end of steps, and the last are kept', () => {
    let history = new History();
    for (let seat = 0; seat < 3 * MOST_STEPS; seat += 1) history = history.note(at(seat));
    assert.equal(seats(history).length, MOST_STEPS + 1);
    assert.equal(seats(history).at(-1), 3 * MOST_STEPS - 1);
  });

  test('what is written is read as it was, and what is not ours is nothing', () => {
    const states = [at(440, 'a'), { design: { family: 'stool', splay: 3.25 }, name: '‮"<b>' }, at(470)];
    const history = states.reduce((made, state) => made.note(state), new History()).undo();
    const again = History.read(history.write());
    assert.deepEqual(again.present, states[1]);
    assert.deepEqual(again.redo().present, states[2]);
    assert.deepEqual(again.undo().present, states[0]);
    for (const bad of [null, '', '{}', 'null', '[]', '{"crestrail":"history/1","at":0,"steps":[]}', '{"crestrail":"history/1","at":0,"steps":[{"name":"","change":{"a":{}}}]}', history.write().slice(0, -4)]) {
      assert.equal(History.read(bad).present, undefined, String(bad));
    }
  });
});

describe('the shelf', () => {
  const one = { name: 'One', date: '2026-03-09T10:00:00.000Z', design: { seat_height: 440 } };
  const two = { name: 'Two', date: '2026-03-10T10:00:00.000Z', design: { seat_height: 460 } };

  test('what is put on it is there, in front, can be renamed and taken away, and put back in its place', () => {
    const shelf = added(added([], one), two);
    assert.deepEqual(shelf.map(({ name }) => name), ['Two', 'One']);
    const [{ id }] = shelf;
    assert.deepEqual(renamed(shelf, id, 'New').map(({ name }) => name), ['New', 'One']);
    const less = without(shelf, id);
    assert.deepEqual(less.map(({ name }) => name), ['One']);
    assert.deepEqual(added(less, two, 0).map(({ name }) => name), ['Two', 'One']);
  });

  test('each has a name of its own for programs, whatever is deleted between', () => {
    let shelf = [];
    for (let i = 0; i < 40; i += 1) {
      shelf = added(shelf, one);
      if (i % 3 === 0) shelf = without(shelf, shelf[Math.floor(shelf.length / 2)].id);
    }
    assert.equal(new Set(shelf.map(({ id }) => id)).size, shelf.length);
  });

  test('a file is read as it was written, and added to itself it brings nothing', () => {
    const shelf = added(added([], one), two);
    assert.deepEqual(read(written(shelf)), shelf);
    assert.equal(joined(shelf, read(written(shelf))).count, 0);
    const { shelf: more, count } = joined(shelf, [{ ...shelf[0], name: 'Three' }]);
    assert.equal(count, 1);
    assert.equal(new Set(more.map(({ id }) => id)).size, 3);
  });

  test('what is no shelf is refused', () => {
    for (const bad of ['', 'null', '{}', '{"crestrail":"shelf/2","designs":[]}', '{"crestrail":"shelf/1","designs":[{}]}', '{"crestrail":"shelf/1","designs":[{"id":"a","name":"b","date":"c","knobs":{"x":[1]}}]}']) {
      assert.throws(() => read(bad), bad);
    }
    assert.ok(MOST_KEPT >= 100);
  });
});

describe('a chair from a number', () => {
  const knobs = [
    { name: 'family', kind: 'choice', group: 'use', choices: [{ name: 'side' }, { name: 'stool' }], default: 'side' },
    { name: 'user', kind: 'range', group: 'use', min: 40, max: 160, step: 5, default: 110 },
    { name: 'back', kind: 'choice', group: 'form', choices: [{ name: 'slats' }, { name: 'open' }], default: 'slats' },
    { name: 'slats', kind: 'count', group: 'form', min: 2, max: 6, step: 1, default: 3, applies: [{ knob: 'back', any: ['slats'] }] },
    { name: 'seat_height', kind: 'range', group: 'size', min: 380, max: 520, step: 1, default: 440 },
    { name: 'width', kind: 'range', group: 'size', min: 380, max: 600, step: 0.5, default: 450 },
  ];
  const begins = Object.fromEntries(knobs.map(({ name, default: value }) => [name, value]));
  const any = async () => true;

  test('the same number gives the same chair, another number another', async () => {
    const chairs = await Promise.all([7, 7, 8].map((number) => drawChair({ number, begins, knobs, holds: any })));
    assert.deepEqual(chairs[0], chairs[1]);
    assert.notDeepEqual(chairs[0], chairs[2]);
  });

  test('every value can be set by hand, who sits there stays, and knobs that do not apply are left', async () => {
    const seen = new Set();
    for (let number = 1; number <= 300; number += 1) {
      const chair = await drawChair({ number, begins, knobs, holds: any });
      seen.add(chair.seat_height);
      assert.equal(chair.family, 'side');
      assert.equal(chair.user, 110);
      for (const { name, kind, min, max, step, choices } of knobs) {
        if (kind === 'choice') assert.ok(choices.some((choice) => choice.name === chair[name]));
        else assert.ok(chair[name] >= min && chair[name] <= max && Math.abs((chair[name] - min) / step - Math.round((chair[name] - min) / step)) < 1e-9, `${name} ${chair[name]}`);
      }
      if (chair.back === 'open') assert.equal(chair.slats, 3);
    }
    assert.ok(seen.size > 60, `${seen.size} seat heights`);
  });

  test('what is drawn holds, however little does', async () => {
    for (let number = 1; number <= 200; number += 1) {
      const holds = async ({ seat_height: seat, width }) => seat >= 430 && seat <= 450 && width < seat + 15;
      const chair = await drawChair({ number, begins, knobs, holds });
      assert.ok(await holds(chair), JSON.stringify(chair));
    }
    const chair = await drawChair({ number: 5, begins, knobs, holds: async () => false });
    assert.deepEqual(chair, begins);
  });

  test('the numbers behind it are even', () => {
    const next = numbers(12345);
    const bins = new Array(10).fill(0);
    for (let i = 0; i < 100_000; i += 1) bins[Math.floor(next() * 10)] += 1;
    // 10 000 in each; five standard deviations are 474.
    for (const count of bins) assert.ok(Math.abs(count - 10_000) < 474, String(bins));
  });
});
