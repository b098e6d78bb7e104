// Where the end of a dimension line is for a value, and back.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { carried, pathBetween, spotAt, valueAt } from '../../www/page/track.js';

const line = [[400, 100, 300], [600, 300, 300]];
// A quarter of a circle of radius 100 about the origin.
const arc = Array.from({ length: 19 }, (_, i) => [i * 5, 100 * Math.sin((i * 5 * Math.PI) / 180), -100 * Math.cos((i * 5 * Math.PI) / 180)]);

describe('the track of an end', () => {
  test('tells its place, also beyond the limits', () => {
    assert.deepEqual(spotAt(line, 450), [150, 300]);
    assert.deepEqual(spotAt(line, 400), [100, 300]);
    assert.deepEqual(spotAt(line, 600), [300, 300]);
    assert.deepEqual(spotAt(line, 650), [350, 300]);
    assert.deepEqual(spotAt(line, 380), [80, 300]);
  });

  test('tells the value nearest to a pointer, also aside and beyond', () => {
    assert.equal(valueAt(line, [150, 900]), 450);
    assert.equal(valueAt(line, [350, 0]), 650);
    assert.equal(valueAt(line, [80, 300]), 380);
  });

  test('leads there and back along an arc', () => {
    for (let value = 0; value <= 90; value += 0.5) assert.ok(Math.abs(valueAt(arc, spotAt(arc, value)) - value) < 1e-6, `${value}`);
    // A pointer further out than the arc.
    const [x, y] = spotAt(arc, 40);
    assert.ok(Math.abs(valueAt(arc, [x * 1.3, y * 1.3]) - 40) < 1.5);
  });

  test('carries its line on where the picture has no room for it', () => {
    const row = { knob: 'seat_height', kind: 'length', value: 450, line: [[150, 300], [20, 300]], aids: [], tracks: [line], label: [80, 300] };
    assert.deepEqual(carried(row, 500).line, [[200, 300], [20, 300]]);
    const turned = carried({ ...row, kind: 'angle', value: 10, line: [], tracks: [arc] }, 20);
    assert.deepEqual([turned.value, turned.line.length, turned.line.at(-1)], [20, 5, spotAt(arc, 20)]);
  });

  test('is drawn between two values with its corners', () => {
    assert.equal(pathBetween(line, 420, 500), 'M120.0 300.0L200.0 300.0');
    assert.equal(pathBetween(arc, 2, 18).split('L').length, 5);
  });
});
