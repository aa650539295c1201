import { describe, expect, it } from 'vitest';
import { activity, builder, kinds, placed, problem, single, work } from '../testing/make.ts';

describe('frozen and set work', () => {
  const hard = work(10, { forbiddenStarts: [{ start: 0, end: 2000 }] });
  const happened = { kind: 'frozen', start: 300, finish: 480, builders: [0] } as const;
  it('is excused from calendar, crew, duration, release and forbidden starts', () => {
    const of = problem({
      builders: [builder('Ada', { abilities: [] }), builder('Bo')],
      activities: [activity('A', [hard], { fixed: happened, release: 1000 })],
    });
    expect(kinds(of, [placed(0, '300-480', [0])])).toEqual([]);
    expect(kinds(of, [placed(0, '300-481', [0])])).toEqual(['fixed']);
    expect(kinds(of, [placed(0, '301-480', [0])])).toEqual(['fixed']);
    expect(kinds(of, [placed(0, '300-480', [1])])).toEqual(['fixed']);
    expect(kinds(of, [placed(0, '300-400 420-480', [0])])).toEqual(['segments']);
  });
  it('occupies its people', () => {
    const of = problem({
      activities: [activity('A', [hard], { fixed: happened }), activity('B', [work(10)])],
    });
    const frozen = placed(0, '300-480', [0]);
    expect(kinds(of, [frozen, placed(1, '480-490', [0])])).toEqual([]);
    expect(kinds(of, [frozen, placed(1, '479-489', [0])])).toEqual(['shift', 'crew-twice']);
  });
  it('is done whatever is chosen', () => {
    const branches = [
      { id: 'a', activities: [0], lags: [] },
      { id: 'b', activities: [], lags: [] },
    ];
    const of = problem({
      activities: [activity('A', [hard], { fixed: happened })],
      choices: [{ id: 'c', branches, source: 'c' }],
    });
    expect(kinds(of, [placed(0, '300-480', [0])], [0])).toEqual([]);
    expect(kinds(of, [], [1])).toEqual(['fixed']);
  });
  it('keeps all rules where it is the foreman who set it', () => {
    const wish = { kind: 'set', start: 470, finish: null, builders: [1] } as const;
    expect(kinds(single(work(10), wish), [placed(0, '470-480', [1])])).toEqual(['shift']);
    expect(kinds(single(work(10), { ...wish, start: 480 }), [placed(0, '480-490', [1])])).toEqual(
      [],
    );
    expect(kinds(single(work(10), { ...wish, start: 480 }), [placed(0, '480-490', [0])])).toEqual([
      'fixed',
    ]);
    expect(kinds(single(work(10), { ...wish, start: 481 }), [placed(0, '480-490', [1])])).toEqual([
      'fixed',
    ]);
  });
});
