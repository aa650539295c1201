import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { solve } from '#scheduling/solve.ts';
import { compiled } from '../testing/compiled.ts';

/** Sand is 50 builder-minutes: 10, and 20 for each of 2 m². */
const aside = {
  state: 'paused',
  startedAt: '2026-11-02T08:00:00Z',
  leftMinutes: 20,
  crew: ['ada'],
} as const;
const laid = {
  state: 'done',
  startedAt: '2026-11-02T05:00:00Z',
  finishedAt: '2026-11-02T06:00:00Z',
  crew: ['ada'],
} as const;
const published = {
  toleranceMinutes: 10,
  tasks: [
    { task: 'lid.sand', start: '2026-11-02T08:00:00Z', people: ['ada'] },
    { task: 'lid.one', start: '2026-11-02T09:00:00Z', people: ['ada'] },
  ],
};

describe('work that was put aside', () => {
  const now = '2026-11-02T09:00:00Z';
  const { problem } = compiled(undefined, { tasks: { 'lid.sand': aside }, now, published });
  const [sand, one] = problem.activities;

  it('is planned as the rest of it, by whoever holds it', () => {
    expect(sand.modes.map(({ work, splittable }) => [work, splittable])).toEqual([[2000, true]]);
    expect(sand.fixed).toEqual({ kind: 'set', start: null, finish: null, builders: [0] });
    const { plan } = solve(problem, { seed: 1, iterations: 64 });
    expect(plan && check(problem, plan)).toEqual([]);
    const placed = plan?.placements.map(({ activity, start, finish }) => [activity, start, finish]);
    expect(placed).toContainEqual([0, 60, 80]);
    // And half an hour until its dust has settled.
    expect(placed?.find(([activity]) => activity === 1)?.[1]).toBe(110);
  });

  it('was told to nobody for later: no churn is seen in it', () => {
    expect(problem.published?.tasks.map(({ activity }) => activity)).toEqual([1]);
    expect(one.fixed).toBeNull();
  });

  it('with nothing left is a minute still, and without a word all of it', () => {
    const workOf = (leftMinutes: number | null): number =>
      compiled(undefined, { tasks: { 'lid.sand': { ...aside, leftMinutes } }, now }).problem
        .activities[0].modes[0].work;
    expect([workOf(0), workOf(null)]).toEqual([100, 5000]);
  });

  it('keeps the window that it was begun in, and its end', () => {
    const foreman = {
      tasks: { 'lid.one': laid, 'lid.two': { ...aside, crew: ['ada'] } },
      now: '2026-11-02T08:30:00Z',
    };
    const bond = compiled((yard) => {
      yard.procedures[0].links = yard.procedures[0].links.map((link) =>
        link.id === 'bond' ? { ...link, sweep: 'same' as const } : link,
      );
    }, foreman).problem.lags.filter(({ source }) => source === 'link:lid.bond');
    // Of a sweep the same way the start has to be in time too: it was.
    expect(bond.filter(({ bound }) => bound === 'close').map(({ toAnchor }) => toAnchor)).toEqual([
      'finish',
    ]);
  });
});

describe('work that a rework does again', () => {
  const { problem } = compiled(undefined, {
    tasks: { 'lid.one': { ...laid, state: 'redo' } },
    now: '2026-11-02T08:30:00Z',
  });

  it('is past, and its film is in nobody’s way', () => {
    expect(problem.activities[1].fixed).toMatchObject({ kind: 'frozen', builders: [] });
    const one = problem.activities.findIndex(({ id }) => id === 'lid.one');
    expect(problem.surfaces.some(({ activity }) => activity === one)).toBe(false);
    const counted = compiled(undefined, { tasks: { 'lid.one': laid } }).problem;
    expect(counted.surfaces.some(({ activity }) => activity === one)).toBe(true);
  });

  it('still says when it was laid: its rework grinds it once it is hard', () => {
    const bond = problem.lags.find(
      ({ source, bound }) => source === 'link:lid.bond' && bound === 'open',
    );
    expect(bond?.fns).toEqual([{ kind: 'constant', minutes: 0 }]);
  });
});
