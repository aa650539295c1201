import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { closesAt, opensAt } from '../../model/lag.ts';
import { validate } from '../../model/validate.ts';
import { faultOf } from '../fault-of.ts';
import { readProblemFile } from '../problem-file.ts';

const fixture = (name: string): string =>
  readFileSync(new URL(`../../../../tests/reference/fixtures/${name}`, import.meta.url), 'utf8');
const read = (text: string) => readProblemFile('FILE.json', text, fixture);

const elapsed = read(fixture('elapsed.json'));
const working = read(fixture('working.json'));

describe('what is read', () => {
  it('activities with the calendars of their resources, the dummy end left out', () => {
    expect(validate(elapsed)).toEqual([]);
    expect(elapsed.horizon).toBe(14);
    expect(elapsed.activities.map(({ id }) => id)).toEqual(['0', '1', '2', '3', '4']);
    expect(elapsed.activities[0].fixed?.start).toBe(0);
    expect(elapsed.resources.map(({ calendar }) => calendar)).toEqual([0, 1]);
    expect(elapsed.calendars.map(({ shifts }) => shifts)).toEqual([
      [
        { start: 0, end: 3 },
        { start: 5, end: 9 },
        { start: 10, end: 14 },
      ],
      [
        { start: 0, end: 6 },
        { start: 7, end: 10 },
        { start: 11, end: 14 },
      ],
    ]);
  });

  it('what may wait, and what it keeps meanwhile', () => {
    expect(elapsed.activities.map(({ modes }) => modes[0].splittable)).toEqual([
      false,
      true,
      true,
      false,
      true,
    ]);
    expect(
      elapsed.activities.map(({ modes }) => modes[0].demands.map((d) => d.keptWhilePaused)),
    ).toEqual([[], [true, false], [true], [false], [true, false]]);
  });

  it('lags that count every period', () => {
    const read = elapsed.lags.map(({ from, to, bound, fns: [fn] }) => [from, to, bound, fn]);
    expect(read.slice(4)).toEqual([
      [1, 2, 'open', { kind: 'constant', minutes: 3 }],
      [1, 2, 'close', { kind: 'constant', minutes: 5 }],
      [4, 3, 'close', { kind: 'constant', minutes: 1 }],
    ]);
  });

  it('lags that count working periods: exactly the pairs of starts that keep W(j) >= W(i) + lag', () => {
    const project = '11110011110011';
    const W = (t: number): number => project.slice(0, t).replaceAll('0', '').length;
    const arcs = [
      { i: 1, j: 2, lag: 3 },
      { i: 2, j: 1, lag: -5 },
      { i: 3, j: 4, lag: -1 },
    ];
    for (const { i, j, lag } of arcs) {
      const found = working.lags.filter(({ from, to, bound }) =>
        lag >= 0
          ? from === i && to === j && bound === 'open'
          : from === j && to === i && bound === 'close',
      );
      expect(found).toHaveLength(1);
      const [fn] = found[0].fns;
      for (let si = 0; si <= 14; si += 1) {
        for (let sj = 0; sj <= 14; sj += 1) {
          const kept = lag >= 0 ? sj >= opensAt(working, fn, si) : si <= closesAt(working, fn, sj);
          expect(kept, `${i} at ${si}, ${j} at ${sj}`).toBe(W(sj) >= W(si) + lag);
        }
      }
    }
  });
});

describe('what is refused, with file, line and value', () => {
  const whole = fixture('elapsed.json');
  const calendar = '11111101110111';
  const broken: [string, (text: string) => string, number, unknown][] = [
    ['text that is not JSON', (t) => t.replace('"horizon": 14,', '"horizon": 14'), 4, ''],
    ['a list instead of an object', () => '[]', 1, []],
    ['a missing field', (t) => t.replace('"base"', '"basis"'), 1, null],
    ['a horizon that is no number', (t) => t.replace('14,', '"14",'), 3, '14'],
    ['a horizon below 0', (t) => t.replace('14,', '-1,'), 3, -1],
    ['a kind of lag that is unknown', (t) => t.replace('elapsed', 'some'), 4, 'some'],
    ['a short calendar', (t) => t.replace(calendar, '111'), 8, '111'],
    ['another sign', (t) => t.replace(calendar, '1111110111011x'), 8, '1111110111011x'],
    ['held that is neither', (t) => t.replace('"held": false', '"held": 0'), 8, 0],
    ['splittable for other activities', (t) => t.replace('"1101"', '"110"'), 10, '110'],
    ['a number where a text is due', (t) => t.replace('"1101"', '1101'), 10, 1101],
  ];
  it.each(broken)('%s', (_, damage, line, value) => {
    const damaged = damage(whole);
    expect(damaged).not.toBe(whole);
    expect(faultOf(() => read(damaged))).toEqual([`FILE.json:${line}`, value]);
  });

  it('a resource too few', () => {
    const damaged = whole.replace(/,\s*\{ "calendar": "11111101110111", "held": false \}/, '');
    expect(faultOf(() => read(damaged))[0]).toBe('FILE.json:6');
  });

  it('a fault of the base file, by its own name and line', () => {
    const base = fixture('calendars.sch').replace('[-5]', '[x]');
    expect(faultOf(() => readProblemFile('FILE.json', whole, () => base))).toEqual([
      'calendars.sch:4',
      'x',
    ]);
  });
});
