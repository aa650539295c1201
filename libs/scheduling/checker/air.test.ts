import { describe, expect, it } from 'vitest';
import type { Placement } from '../model/plan.ts';
import type { Activity, DustReach, Mode, OpenSurface, Problem } from '../model/problem.ts';
import { activity, kinds, mode, placed, plan, problem, work } from '../testing/make.ts';
import { check } from './check.ts';

const space = (id: string, settling: number, ...dustReaches: readonly DustReach[]) => ({
  id,
  dustReaches,
  settling,
  source: id,
});
const reach = (to: number): DustReach => ({ space: to, barrier: null });
const surface = (minutes: number, given: Partial<OpenSurface> = {}): OpenSurface => ({
  id: 'film',
  activity: 1,
  until: [{ kind: 'constant', minutes }],
  coveredBy: [],
  source: 'film',
  ...given,
});
const does = (id: string, given: Partial<Mode>, more: Partial<Activity> = {}): Activity =>
  activity(id, [mode({ duration: 10, ...given })], more);
const sand = activity('sand', [mode({ duration: 30, space: 0, air: 'dusty' })]);
const coat = activity('coat', [mode({ duration: 60, space: 1, air: 'wet' })]);

/** Dust of the bench hangs 20 minutes and reaches bench and booth; a film is safe 100 minutes after the coat. */
const yard = (given: Partial<Problem> = {}): Problem =>
  problem({
    spaces: [space('bench', 20, reach(0), reach(1)), space('booth', 5)],
    activities: [sand, coat],
    surfaces: [surface(100)],
    ...given,
  });
/** Work before the beginning. */
const past = (index: number, start: number, end: number): Placement =>
  placed(index, '0-1', [], { start, finish: end, segments: [{ start, end }] });
const sanded = (at: number) => placed(0, `${at}-${at + 30}`);

describe('air', () => {
  it.each([
    ['settled when the coat begins', 50, 100, []],
    ['one minute from settled', 51, 100, ['dust']],
    ['at the minute it is safe', 260, 100, []],
    ['one minute before it is safe', 259, 100, ['dust']],
    ['while it is spread', 110, 100, ['dust']],
  ])('%s', (_, at, start, expected) => {
    expect(kinds(yard(), [sanded(at), placed(1, `${start}-${start + 60}`)])).toEqual(expected);
  });

  it('names both spaces', () => {
    expect(check(yard(), plan(yard(), [sanded(51), placed(1, '100-160')]))).toMatchObject([
      { kind: 'dust', activities: [0, 1], constraint: { kind: 'dust', from: 0, to: 1 } },
      { kind: 'dust', activities: [0, 1], constraint: { kind: 'dust', from: 0, to: 1 } },
    ]);
  });

  it('is not shared the other way, nor by work without a space', () => {
    const swapped = (own: number | null): Problem =>
      yard({
        activities: [
          { ...sand, modes: [{ ...sand.modes[0], space: own }] },
          { ...coat, modes: [{ ...coat.modes[0], space: 0 }] },
        ],
      });
    const both = [sanded(110), placed(1, '100-160')];
    expect(kinds(swapped(1), both)).toEqual([]);
    expect(kinds(swapped(null), both)).toEqual([]);
    expect(kinds(swapped(0), both)).toEqual(['dust']);
  });

  it('is open while wet work lasts, surface or not, and no longer for the clean-down', () => {
    const wet = yard({
      surfaces: [],
      activities: [sand, activity('coat', [work(60, { space: 1, air: 'wet', cleanDown: 30 })])],
    });
    const at = (minute: number): string[] =>
      kinds(wet, [sanded(minute), placed(1, '500-560', [0])]);
    expect([450, 451, 559, 560].map(at)).toEqual([[], ['dust'], ['dust'], []]);
  });

  it('is open where clean work leaves a surface, and not where clean work leaves none', () => {
    const wiped = (surfaces: readonly OpenSurface[]): Problem =>
      yard({ surfaces, activities: [sand, does('wipe', { space: 1 })] });
    const at = (surfaces: readonly OpenSurface[], minute: number): string[] =>
      kinds(wiped(surfaces), [sanded(minute), placed(1, '100-110')]);
    expect([50, 51, 209, 210].map((minute) => at([surface(100)], minute))).toEqual([
      [],
      ['dust'],
      ['dust'],
      [],
    ]);
    expect(at([], 105)).toEqual([]);
  });

  it('is open for as long as the mode says, read as an opening between grid points', () => {
    const values = [0, 150, ...Array.from({ length: 28 }, () => 300)];
    const modes = [mode({ duration: 10, space: 1, air: 'wet' }), mode({ duration: 10, space: 1 })];
    const of = yard({
      tables: [{ id: 't', grid: 100, values, source: 't' }],
      activities: [sand, activity('coat', modes)],
      surfaces: [
        surface(0, {
          until: [
            { kind: 'constant', minutes: 40 },
            { kind: 'table', table: 0 },
          ],
        }),
      ],
    });
    const at = (way: number, minute: number): string[] =>
      kinds(of, [sanded(minute), placed(1, '100-110', [], { mode: way })]);
    expect(at(0, 149)).toEqual(['dust']);
    expect(at(0, 150)).toEqual([]);
    expect(at(1, 299)).toEqual(['dust']);
    expect(at(1, 300)).toEqual([]);
  });

  it('hangs after each piece of work that pauses', () => {
    const split = yard({
      activities: [
        activity('sand', [work(300, { splittable: true, space: 0, air: 'dusty' })]),
        coat,
      ],
      surfaces: [],
    });
    const sanding = placed(0, '480-720 750-810', [0]);
    const short = yard({
      activities: [split.activities[0], does('coat', { space: 1, air: 'wet' })],
      surfaces: [],
    });
    const at = (minute: number): string[] =>
      kinds(short, [sanding, placed(1, `${minute}-${minute + 10}`)]);
    expect([740, 739, 741, 830, 829].map(at)).toEqual([[], ['dust'], ['dust'], [], ['dust']]);
  });

  it('is made and met by what has happened', () => {
    const frozen = (start: number, finish: number) =>
      ({ fixed: { kind: 'frozen', start, finish, builders: [] } }) as const;
    const before = yard({ activities: [{ ...sand, ...frozen(-30, 5) }, coat] });
    const after = (at: number): string[] =>
      kinds(before, [placed(0, '-30-5'), placed(1, `${at}-${at + 60}`)]);
    expect([24, 25].map(after)).toEqual([['dust'], []]);
    const film = yard({ activities: [sand, { ...coat, ...frozen(-60, -10) }] });
    const on = (at: number): string[] => kinds(film, [sanded(at), past(1, -60, -10)]);
    expect([89, 90].map(on)).toEqual([['dust'], []]);
  });
});

describe('covers', () => {
  const branches = [
    { id: 'both', activities: [2], lags: [] },
    { id: 'one', activities: [], lags: [] },
  ];
  const of = (minutes: number): Problem =>
    yard({
      activities: [sand, coat, does('second coat', {}), does('third coat', {})],
      surfaces: [surface(minutes, { coveredBy: [3, 2] })],
      choices: [{ id: 'c', branches, source: 'c' }],
    });
  const at = (minute: number, both: boolean, minutes = 10): string[] =>
    kinds(
      of(minutes),
      [
        sanded(minute),
        placed(1, '100-160'),
        ...(both ? [placed(2, '300-310')] : []),
        placed(3, '400-410'),
      ],
      [both ? 0 : 1],
    );
  it('end the surface at the earliest of those present, and nothing else does', () => {
    expect([299, 300].map((minute) => at(minute, true))).toEqual([['dust'], []]);
    expect([399, 400].map((minute) => at(minute, false))).toEqual([['dust'], []]);
    expect([299, 300].map((minute) => at(minute, true, 900))).toEqual([['dust'], []]);
  });
  it('that are all absent leave it to the lag', () => {
    const only: Problem = { ...of(10), surfaces: [surface(10, { coveredBy: [2] })] };
    const alone = (minute: number): string[] =>
      kinds(only, [sanded(minute), placed(1, '100-160'), placed(3, '400-410')], [1]);
    expect([169, 170].map(alone)).toEqual([['dust'], []]);
  });
});

describe('a surface on a part that is moved', () => {
  /** Dust of the bench reaches only the booth, dust of the hall only the store. */
  const of = (space0: number): Problem =>
    problem({
      spaces: [
        space('bench', 0, reach(1)),
        space('booth', 0),
        space('hall', 0, reach(3)),
        space('store', 0),
      ],
      parts: [
        { id: 'hatch', space: 1, source: 'hatch' },
        { id: 'lid', space: 1, source: 'lid' },
      ],
      activities: [
        activity('sand', [mode({ duration: 30, space: space0, air: 'dusty' })]),
        activity('coat', [mode({ duration: 60, space: 1, air: 'wet' })], { parts: [0, 1] }),
        does('carry', { movesTo: 3 }, { parts: [0] }),
        does('carry the other', { movesTo: 3 }, { parts: [1] }),
        does('back', { movesTo: 1 }, { parts: [0] }),
      ],
      surfaces: [surface(340)],
    });
  const rest = [
    placed(1, '100-160'),
    placed(2, '200-210'),
    placed(3, '180-190'),
    placed(4, '400-410'),
  ];
  const met = (where: number, minute: number): boolean =>
    kinds(of(where), [sanded(minute), ...rest]).includes('dust');
  it('leaves the first air when the move is finished, and is in the next from its start', () => {
    expect([209, 210].map((minute) => met(0, minute))).toEqual([true, false]);
    expect([170, 171].map((minute) => met(2, minute))).toEqual([false, true]);
  });
  it('comes back with the part, and is safe in the end', () => {
    expect([370, 371, 499, 500].map((minute) => met(0, minute))).toEqual([
      false,
      true,
      true,
      false,
    ]);
    expect([409, 410].map((minute) => met(2, minute))).toEqual([true, false]);
  });
  const early = [
    placed(1, '100-160'),
    placed(2, '50-60'),
    placed(3, '180-190'),
    placed(4, '80-90'),
  ];
  it('knows nothing of moves before', () => {
    expect(kinds(of(0), [sanded(300), ...early])).toEqual(['dust']);
    expect(kinds(of(2), [sanded(300), ...early])).toEqual([]);
  });
  it('is in the space of the work where that has happened, wherever the part was', () => {
    const happened = (where: number): Problem => ({
      ...of(where),
      activities: of(where).activities.map((one, a) =>
        a === 1
          ? { ...one, fixed: { kind: 'frozen', start: 100, finish: 160, builders: [] } }
          : one,
      ),
    });
    const gone = [
      placed(1, '100-160'),
      placed(2, '50-60'),
      placed(3, '180-190'),
      placed(4, '800-810'),
    ];
    expect(kinds(happened(0), [sanded(300), ...gone])).toEqual(['dust']);
    expect(kinds(happened(2), [sanded(300), ...gone])).toEqual([]);
  });
});
