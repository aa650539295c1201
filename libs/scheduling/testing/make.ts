import { check } from '../checker/check.ts';
import { ranks } from '../checker/values.ts';
import type { ViolationKind } from '../checker/violation.ts';
import { plainMode } from '../model/plain.ts';
import type { Placement, Plan } from '../model/plan.ts';
import type { Activity, Builder, FixedWork, Lag, Mode, Problem } from '../model/problem.ts';

/** Short forms for problems written by hand in tests: everything has a plain default. */

export const mode = plainMode;

/** Work for one builder of skill 0 that takes a nominal builder so many minutes. */
export const work = (minutes: number, given: Partial<Mode> = {}): Mode =>
  mode({ work: 100 * minutes, crew: [{ skill: 0, minLevel: 1, count: 1 }], ...given });

export const activity = (
  id: string,
  modes: readonly Mode[],
  given: Partial<Activity> = {},
): Activity => ({
  id,
  refit: 0,
  modes,
  releases: [],
  parts: [],
  fixed: null,
  source: id,
  ...given,
});

/** A nominal builder of skill 0 on calendar 0. */
export const builder = (id: string, given: Partial<Builder> = {}): Builder => ({
  id,
  calendar: 0,
  abilities: [{ skill: 0, level: 1, speed: 100, needsSenior: false }],
  cost: 0,
  unlimited: false,
  source: id,
  ...given,
});

/** A constant lag from finish to start that opens, unless told otherwise. */
export const lag = (from: number, to: number, minutes: number, given: Partial<Lag> = {}): Lag => ({
  id: `lag-${from}-${to}`,
  from,
  fromAnchor: 'finish',
  to,
  toAnchor: 'start',
  bound: 'open',
  fns: [{ kind: 'constant', minutes }],
  kind: 'sequence',
  source: 'lag',
  ...given,
});

/** Two days; everybody works 480-960 with a break 720-750, each day. */
export const problem = (given: Partial<Problem> = {}): Problem => ({
  version: 2,
  origin: null,
  now: 0,
  horizon: 2880,
  skills: ['laminating', 'sanding'],
  calendars: [
    {
      id: 'day',
      shifts: [
        { start: 480, end: 960 },
        { start: 1920, end: 2400 },
      ],
      breaks: [
        { start: 720, end: 750 },
        { start: 2160, end: 2190 },
      ],
      overtime: [],
      source: 'day',
    },
  ],
  builders: [builder('Ada'), builder('Bo')],
  resources: [],
  stocks: [],
  spaces: [],
  barriers: [],
  parts: [],
  slotLists: [],
  activities: [],
  tables: [],
  lags: [],
  choices: [],
  surfaces: [],
  holds: [],
  refits: [{ id: 'refit', release: 0, due: 1000, handovers: [], weight: 1, source: 'refit' }],
  published: null,
  tolerances: [0, 0, 0],
  ...given,
});

/**
 * A placement in mode 0 that works in `spans`, written '480-720 750-810', from the first
 * start to the last end; an empty span is no segment.
 */
export function placed(
  index: number,
  spans: string,
  builders: readonly number[] = [],
  given: Partial<Placement> = {},
): Placement {
  const all = [...spans.matchAll(/(-?\d+)-(\d+)/g)].map((found) => ({
    start: Number(found[1]),
    end: Number(found[2]),
  }));
  return {
    activity: index,
    mode: 0,
    start: all[0].start,
    finish: all[all.length - 1].end,
    segments: all.filter(({ start, end }) => start < end),
    crew: builders.map((one) => ({ builder: one, demand: 0 })),
    overtime: false,
    slot: null,
    ...given,
  };
}

/** The plan of some placements, its values right. */
export function plan(
  of: Problem,
  placements: readonly Placement[],
  branches: readonly number[] = [],
): Plan {
  const finishes = of.refits.map((_, r) =>
    Math.max(
      0,
      ...placements.map((one) => (of.activities[one.activity].refit === r ? one.finish : 0)),
    ),
  );
  return { placements, branches, finishes, values: ranks(of, placements, finishes) };
}

/** One activity of one mode. */
export const single = (way: Mode, fixed: FixedWork | null = null): Problem =>
  problem({ activities: [activity('A', [way], { fixed })] });

/** The kinds of violation of a plan of some placements, each once, in the order of the rules. */
export const kinds = (
  of: Problem,
  placements: readonly Placement[],
  branches?: readonly number[],
): ViolationKind[] => [
  ...new Set(check(of, plan(of, placements, branches)).map((violation) => violation.kind)),
];
