import { describe, expect, it } from 'vitest';
import { makeWorkload } from '../workload/make.ts';
import type { Task, Workload } from '../workload/workload.ts';
import { layerSchema, type Layer } from '../yard/boats.ts';
import { readingSchema } from '../yard/observed.ts';
import { smallYard } from '../testing/small-yard.ts';
import { climateHours } from './climate-hours.ts';
import { filmTimes } from './film-times.ts';
import { futureFaults } from './future.ts';
import { partSurface } from './part-surface.ts';
import { startFor } from './start-for.ts';

/** At 20 °C it bonds from 120 to 360 minutes and is sandable after 960. */
const film = { material: 'resin', space: 'shop' };
const there = { material: 'resin', place: { space: 'shop' } };
const laid = '2026-11-03T08:00:00.000Z';
const after = (minutes: number): string =>
  new Date(Date.parse(laid) + minutes * 60_000).toISOString();

describe('film times', () => {
  it('count from the last of it for what begins, and from the first for what ends', () => {
    const { marks, windows, missing } = filmTimes(smallYard(), {
      ...there,
      laidFrom: laid,
      laidUntil: after(100),
    });
    const at = (milestone: string) =>
      marks.find((mark) => mark.milestone === milestone)?.when?.at ?? null;
    expect([at('bond-opens'), at('bond-closes'), at('sandable')]).toEqual([
      after(220),
      after(360),
      after(1060),
    ]);
    expect(windows).toMatchObject([
      { kind: 'bond', opens: { at: after(220) }, closes: { at: after(360) }, empty: false },
    ]);
    expect(missing.map(({ milestone }) => milestone)).toContain('cured');
  });

  it('has no moment for all of a film that took longer than its window', () => {
    const long = filmTimes(smallYard(), { ...there, laidFrom: laid, laidUntil: after(241) });
    expect(long.windows).toMatchObject([{ empty: true }]);
  });

  it('are those of the sheet where it is always so warm, whatever the yard’s spaces are', () => {
    const sandableAt = (celsius: number) =>
      filmTimes(smallYard(), {
        ...{ material: 'resin', place: { celsius } },
        ...{ laidFrom: laid, laidUntil: laid },
      }).marks.find(({ milestone }) => milestone === 'sandable')?.when?.at;
    expect([10, 20, 30].map(sandableAt)).toEqual([after(1920), after(960), after(480)]);
  });
});

describe('a space that follows the outdoors', () => {
  /** Two days of weather around the moment at which the film is laid. */
  const shed = (known: boolean) =>
    smallYard((yard) => {
      yard.spaces[0].climate = { kind: 'outdoors', lagHours: 2, warmerBy: 0 };
      yard.outdoor = known
        ? { from: after(-1440), celsius: Array<number>(48).fill(20), humidity: [], source: 's' }
        : null;
    });
  const by = (minutes: number) =>
    ({ ...film, milestone: 'sandable', by: after(minutes), minutes: 0 }) as const;

  it('says where the weather is known no further', () => {
    const laidAt = (minutes: number) =>
      filmTimes(shed(true), { ...there, laidFrom: after(minutes), laidUntil: after(minutes) });
    expect([laidAt(0).assumed, laidAt(720).assumed, laidAt(300_000).assumed]).toEqual([
      false,
      true,
      true,
    ]);
    expect([
      startFor(shed(true), by(1000)).assumed,
      startFor(shed(true), by(2880)).assumed,
    ]).toEqual([false, true]);
  });

  it('cannot be reckoned without any, which is said of the space', () => {
    const asks = [
      () => filmTimes(shed(false), { ...there, laidFrom: laid, laidUntil: laid }),
      () => startFor(shed(false), by(960)),
      () => climateHours(shed(false), { space: 'shop', from: laid, until: laid, material: null }),
    ];
    for (const ask of asks) {
      expect(ask).toThrow(
        expect.objectContaining({
          code: 'input.field',
          faults: [expect.objectContaining({ path: 'space', value: 'shop' })],
        }),
      );
    }
  });
});

describe('a start for a wanted moment', () => {
  it('is the latest from which on it is there in time, work and all', () => {
    const asked = { ...film, milestone: 'sandable', by: after(960), minutes: 45 } as const;
    expect(startFor(smallYard(), asked)).toEqual({
      start: { at: after(-45), local: after(-45).slice(0, 16) },
      bound: 'latest',
      assumed: false,
      words: 'Begin by Tue 3 Nov 07:15 for it to be sandable by Wed 4 Nov 00:00.',
    });
  });

  it('of what ends is the earliest from which on it has not ended', () => {
    const asked = { ...film, milestone: 'bond-closes', by: after(360), minutes: 45 } as const;
    expect(startFor(smallYard(), asked)).toMatchObject({
      start: { at: laid },
      bound: 'earliest',
    });
  });

  it('is none where the space never lets it cure', () => {
    const cold = smallYard((yard) => {
      yard.spaces[0].climate = {
        kind: 'heated',
        lagHours: 0,
        setPoints: [{ weekdays: [1], from: '00:00', celsius: 2 }],
      };
    });
    const asked = { ...film, milestone: 'sandable', by: laid, minutes: 0 } as const;
    expect(startFor(cold, asked)).toMatchObject({ start: null, bound: 'latest' });
  });
});

describe('a climate hour by hour', () => {
  const asked = { space: 'shop', from: laid, until: after(60), material: 'resin' };

  it('is judged by the coldest and the warmest that it may be', () => {
    const [fine] = climateHours(smallYard(), asked);
    expect(fine).toMatchObject({ verdict: 'fine', reasons: [], humidity: null });
    const hot = smallYard((yard) => {
      yard.spaces[0].bandC = 16;
    });
    const hours = climateHours(hot, asked);
    expect(hours).toHaveLength(2);
    expect(hours[0]).toMatchObject({ air: { cold: 4, expected: 20, warm: 36 }, verdict: 'refuse' });
    expect(hours[0].reasons.some((reason) => reason.includes('warmer than'))).toBe(true);
    expect(hours[0].reasons.some((reason) => reason.includes('stands still'))).toBe(true);
  });
});

describe('what is exposed on a part', () => {
  const layers = (...list: object[]): Layer[] => list.map((one) => layerSchema.parse(one));
  const surfaceOf = (own: Layer[], change: Record<string, Partial<Task>>, now: string) => {
    const yard = smallYard((draft) => {
      draft.boats[0].refits[0].parts[0].layers = own;
    });
    const made = makeWorkload(yard);
    const tasks = made.tasks.map((task) => ({ ...task, ...change[task.stepId] }));
    const workload: Workload = { ...made, tasks };
    return partSurface(yard, workload, { part: 'lid', now, next: null });
  };
  const done = { state: 'done', startedAt: after(-60), finishedAt: laid } as const;

  it('is nothing that is known, its outermost layer, or the last film', () => {
    expect(surfaceOf([], {}, laid)).toBeNull();
    const wood = layers({ base: 'wood' });
    expect(surfaceOf(wood, {}, laid)).toMatchObject({ substrate: 'wood', stage: 'cured' });
    const coated = (minutes: number) => surfaceOf(wood, { one: done }, after(minutes))?.stage;
    expect([coated(60), coated(200), coated(500), coated(960)]).toEqual([
      'wet',
      'open',
      'between',
      'hard',
    ]);
  });

  it('is wet while it is being laid, and abraded once that is done', () => {
    const working = { state: 'working', startedAt: laid, finishedAt: null } as const;
    expect(surfaceOf([], { one: working }, after(30))).toMatchObject({ stage: 'wet' });
    const key = {
      state: 'done',
      startedAt: after(960),
      finishedAt: after(990),
      prepares: [{ kind: 'abrade', grit: 80, passes: 1, mm: null }],
    } as const satisfies Partial<Task>;
    expect(
      surfaceOf([], { one: done, key: { ...key, prepares: [...key.prepares] } }, after(1000)),
    ).toMatchObject({
      stage: 'hard',
      done: [{ kind: 'abrade', grit: 80, minutesAgo: 10 }],
    });
  });

  it('is what was below once a film is sanded through', () => {
    const own = layers({ base: 'wood' }, { base: 'paint', surface: 'sealed', mm: 0.2 });
    const key = (mm: number) =>
      ({
        state: 'done',
        startedAt: after(0),
        finishedAt: after(30),
        prepares: [{ kind: 'abrade', grit: 80, passes: 1, mm }],
      }) satisfies Partial<Task>;
    const substrate = (mm: number) => surfaceOf(own, { key: key(mm) }, after(60))?.substrate;
    expect([substrate(0.1), substrate(0.2)]).toEqual(['paint', 'wood']);
  });

  it('is the other face once the part was turned over', () => {
    const turn = {
      state: 'done',
      startedAt: after(10),
      finishedAt: after(20),
      movesTo: 'shop',
    } as const;
    const wood = layers({ base: 'wood' });
    expect(surfaceOf(wood, { one: done, key: turn }, after(60))).toMatchObject({
      substrate: 'wood',
    });
    const back = { ...turn, startedAt: after(30), finishedAt: after(40) };
    expect(surfaceOf(wood, { one: done, key: turn, two: back }, after(60))).toMatchObject({
      substrate: 'epoxy',
    });
  });

  it('is asked of a moment before the work was done as it was then', () => {
    const wood = layers({ base: 'wood' });
    const key = { state: 'done', startedAt: after(10), finishedAt: after(20) } as const;
    const asked = (minutes: number) => surfaceOf(wood, { one: done, key }, after(minutes));
    expect([asked(-61)?.substrate, asked(-30)?.stage]).toEqual(['wood', 'wet']);
  });

  it('is never soft where it was not laid wet', () => {
    const foam = layers({ base: 'foam', laidAt: after(-60) });
    expect(surfaceOf(foam, {}, laid)).toMatchObject({ substrate: 'foam', stage: 'cured' });
    const unnamed = layers({ base: 'epoxy', laidAt: after(-60) });
    expect(surfaceOf(unnamed, {}, laid)).toMatchObject({ substrate: 'epoxy', stage: 'between' });
  });
});

describe('readings from the future', () => {
  it('are those that end after the clock', () => {
    const yard = smallYard((draft) => {
      draft.readings = [
        { id: 'past', space: 'shop', at: after(-60), minutes: 60, celsius: 20 },
        { id: 'not-over', space: 'shop', at: after(-30), minutes: 31, celsius: 20 },
      ].map((one) => readingSchema.parse(one));
    });
    expect(futureFaults(yard, laid).map(({ code, path }) => [code, path])).toEqual([
      ['cure.reading', 'readings[1].at'],
    ]);
  });
});
