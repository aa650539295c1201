import { describe, expect, it } from 'vitest';
import type { Placement } from '../model/plan.ts';
import type { Activity, Mode, Problem } from '../model/problem.ts';
import { activity, kinds, mode, placed, plan, problem, work } from '../testing/make.ts';
import { check } from './check.ts';

const space = (id: string) => ({ id, dustReaches: [], settling: 0, source: id });
const on = (
  id: string,
  given: Partial<Mode>,
  parts: readonly number[] = [0],
  fixed: Activity['fixed'] = null,
): Activity => activity(id, [mode({ duration: 10, ...given })], { parts, fixed });
const of = (...activities: readonly Activity[]): Problem =>
  problem({
    spaces: [space('bench'), space('hull'), space('booth')],
    parts: [
      { id: 'hatch', space: 0, source: 'hatch' },
      { id: 'sole', space: 1, source: 'sole' },
    ],
    activities,
  });
const happened = (start: number, finish: number) =>
  ({ kind: 'frozen', start, finish, builders: [] }) as const;

/** Work before the beginning. */
const past = (index: number, start: number, end: number): Placement =>
  placed(index, '0-1', [], { start, finish: end, segments: [{ start, end }] });

describe('parts', () => {
  it('are worked on by one activity at a time', () => {
    const two = of(on('A', {}, [0, 1]), on('B', {}, [1]));
    expect(kinds(two, [placed(0, '0-10'), placed(1, '10-20')])).toEqual([]);
    expect(check(two, plan(two, [placed(0, '1-11'), placed(1, '10-20')]))).toMatchObject([
      { kind: 'part', activities: [0, 1], constraint: { kind: 'part', part: 1 } },
    ]);
    expect(
      kinds(of(on('A', {}, [0]), on('B', {}, [1])), [placed(0, '0-10'), placed(1, '0-10')]),
    ).toEqual([]);
  });
  it('stay taken in a pause, but not in the clean-down', () => {
    const paused = of(
      activity('A', [work(300, { splittable: true })], { parts: [0] }),
      on('B', {}),
    );
    const sanding = placed(0, '480-720 750-810', [0]);
    expect(kinds(paused, [sanding, placed(1, '725-735')])).toEqual(['part']);
    expect(kinds(paused, [sanding, placed(1, '810-820')])).toEqual([]);
    const wet = of(activity('A', [work(10, { cleanDown: 20 })], { parts: [0] }), on('B', {}));
    expect(kinds(wet, [placed(0, '480-490', [0]), placed(1, '490-500')])).toEqual([]);
  });
  it('are not taken by work of no time, and are by what has happened', () => {
    const word = of(on('A', {}), on('B', { duration: 0 }));
    expect(kinds(word, [placed(0, '0-10'), placed(1, '5-5')])).toEqual([]);
    const past = of(on('A', {}, [0], happened(-5, 20)), on('B', {}));
    expect(kinds(past, [placed(0, '-5-20'), placed(1, '20-30')])).toEqual([]);
    expect(kinds(past, [placed(0, '-5-20'), placed(1, '19-29')])).toEqual(['part']);
  });
  it('are named with everything that overlaps a longer work', () => {
    const three = of(on('A', { duration: 100 }), on('B', {}), on('C', {}));
    const all = plan(three, [placed(0, '0-100'), placed(1, '10-20'), placed(2, '30-40')]);
    expect(check(three, all).map((found) => found.activities)).toEqual([
      [0, 1],
      [0, 2],
    ]);
  });
});

describe('where a part is', () => {
  const moved = of(on('carry', { space: 0, movesTo: 2 }), on('coat', { space: 2 }));
  it('is where it was before the first move, and where the last one finished', () => {
    expect(kinds(moved, [placed(0, '0-10'), placed(1, '10-20')])).toEqual([]);
    const early = plan(moved, [placed(0, '20-30'), placed(1, '10-20')]);
    expect(check(moved, early)).toMatchObject([
      { kind: 'location', activities: [1], constraint: { kind: 'part', part: 0 } },
    ]);
    const back = of(
      on('carry', { space: 0, movesTo: 2 }),
      on('back', { space: 2, movesTo: 0 }),
      on('coat', { space: 2 }),
      on('sand', { space: 0 }),
    );
    const places = (coat: number, sand: number): string[] =>
      kinds(back, [
        placed(0, '10-20'),
        placed(1, '40-50'),
        placed(2, `${coat}-${coat + 10}`),
        placed(3, `${sand}-${sand + 10}`),
      ]);
    expect(places(20, 50)).toEqual([]);
    expect(places(30, 0)).toEqual([]);
    expect(places(50, 60)).toEqual(['location']);
    expect(places(20, 30)).toEqual(['location']);
    expect(places(0, 20)).toEqual(['location']);
  });
  it('is asked for at the start, not while it is carried', () => {
    const word = of(on('carry', { movesTo: 2 }), on('word', { duration: 0, space: 0 }));
    expect(kinds(word, [placed(0, '10-20'), placed(1, '19-19')])).toEqual([]);
    expect(kinds(word, [placed(0, '10-20'), placed(1, '20-20')])).toEqual(['location']);
  });
  it('is asked of every part of the work', () => {
    const both = of(on('glue', { space: 0 }, [0, 1]), on('fetch', { movesTo: 0 }, [1]));
    expect(kinds(both, [placed(0, '10-20'), placed(1, '0-10')])).toEqual([]);
    const found = check(both, plan(both, [placed(0, '0-10'), placed(1, '10-20')]));
    expect(found).toMatchObject([{ kind: 'location', constraint: { kind: 'part', part: 1 } }]);
  });
  it('does not matter where work is in no space, has no part or has happened', () => {
    const [carry, coat] = moved.activities;
    const early = [placed(0, '20-30'), placed(1, '10-20')];
    expect(kinds(of(carry, on('coat', { space: null })), early)).toEqual([]);
    expect(kinds(of(carry, on('coat', { space: 2 }, [])), early)).toEqual([]);
    expect(kinds(of(carry, { ...coat, fixed: happened(10, 20) }), early)).toEqual([]);
  });
  it('is where a move that has happened took it', () => {
    const carried = of(
      on('carry', { movesTo: 2 }, [0], happened(-9, -1)),
      on('coat', { space: 2 }),
    );
    expect(kinds(carried, [past(0, -9, -1), placed(1, '0-10')])).toEqual([]);
  });
  it('is moved by the mode that is done', () => {
    const [, coat] = moved.activities;
    const ways = [mode({ duration: 10 }), mode({ duration: 10, movesTo: 2 })];
    const either = of(activity('turn', ways, { parts: [0] }), coat);
    const turned = (way: number): string[] =>
      kinds(either, [placed(0, '0-10', [], { mode: way }), placed(1, '10-20')]);
    expect([0, 1].map(turned)).toEqual([['location'], []]);
  });
});
