import { random } from '#kernel/random.ts';
import type {
  Ability,
  Activity,
  Choice,
  Interval,
  Lag,
  LagTable,
  OpenSurface,
  Problem,
} from '../model/problem.ts';
import { activity, builder, lag, mode, problem } from './make.ts';

const DAY = 1440;

const weekdays = (days: number, from: number, to: number): Interval[] =>
  Array.from({ length: days }, (_, d) => d)
    .filter((d) => d % 7 < 5)
    .map((d) => ({ start: d * DAY + from, end: d * DAY + to }));

/** A cure that takes `minutes` by day and half as long again at night, every half hour. */
function cure(id: string, minutes: number, horizon: number, kind: 'steps' | 'lines'): LagTable {
  const values: number[] = [];
  const at: number[] = [];
  for (let t = 0; t <= horizon; t += 30) {
    let left = minutes * 2;
    let now = t;
    while (left > 0) {
      left -= now % DAY >= 480 && now % DAY < 1080 ? 60 : 40;
      now += 30;
    }
    at.push(t);
    values.push(Math.min(horizon + 1, now));
  }
  return { id, ...(kind === 'steps' ? { grid: 30 } : { at }), values, source: id };
}

/**
 * A yard's three weeks, made up: three refits whose parts are ground, laminated in two coats
 * inside a bond window or keyed and wiped first, and sanded; six builders on shifts with breaks,
 * four spaces, dust. `parts` of nine activities each.
 */
export function madeUpYard(seed: number, parts: number): Problem {
  const rng = random(seed);
  const days = 14 + 3 * parts;
  const horizon = days * DAY;
  const activities: Activity[] = [];
  const lags: Lag[] = [];
  const choices: Choice[] = [];
  const surfaces: OpenSurface[] = [];
  const tables = [
    cure('gel', 240, horizon, 'steps'),
    cure('bond', 1500, horizon, 'lines'),
    cure('hard', 900, horizon, 'lines'),
    cure('safe', 300, horizon, 'steps'),
  ];
  const add = (one: Activity): number => activities.push(one) - 1;
  const tie = (one: Lag): number => lags.push({ ...one, id: `lag-${String(lags.length)}` }) - 1;
  for (let p = 0; p < parts; p += 1) {
    const refit = p % 3;
    const space = rng.below(4);
    const minutes = (from: number, spread: number): number => from + rng.below(spread);
    const task = (
      name: string,
      skill: number,
      of: number,
      given: Parameters<typeof mode>[0],
    ): number =>
      add(
        activity(
          `${name}-${String(p)}`,
          [1, 2].map((count) =>
            mode({
              work: of * 100,
              floor: 10,
              crew: [{ skill, minLevel: 1, count }],
              space,
              ...given,
            }),
          ),
          { refit },
        ),
      );
    const wet = { air: 'wet', breaks: 'relieved' } as const;
    const dusty = { air: 'dusty', splittable: true } as const;
    const fit = task('fit', 0, minutes(120, 300), { splittable: true });
    const grind = task('grind', 1, minutes(60, 200), dusty);
    const first = task('first-coat', 2, minutes(40, 90), wet);
    const second = task('second-coat', 2, minutes(40, 90), wet);
    const key = task('key', 1, minutes(30, 60), dusty);
    const wipe = task('wipe', 2, 15, { breaks: 'relieved' });
    const sand = task('sand', 1, minutes(60, 240), dusty);
    const paint = task('paint', 2, minutes(40, 90), wet);
    const mount = task('mount', 0, minutes(60, 120), { splittable: true });
    const open = (table: number): Partial<Lag> => ({ fns: [{ kind: 'table', table }] });
    tie(lag(fit, grind, 0));
    tie(lag(grind, first, 30));
    tie(lag(first, second, 0, open(0)));
    tie(lag(second, sand, 0, open(2)));
    tie(lag(sand, paint, 20));
    tie(lag(paint, mount, 0, open(2)));
    const bond = tie(lag(first, second, 0, { ...open(1), bound: 'close', kind: 'bond' }));
    const keyed = [
      tie(lag(first, key, 0, open(2))),
      tie(lag(key, wipe, 0)),
      tie(lag(wipe, second, 20)),
      tie(lag(wipe, second, 240, { bound: 'close', kind: 'stale' })),
    ];
    choices.push({
      id: `bond-${String(p)}`,
      source: `part-${String(p)}`,
      branches: [
        { id: 'bond', activities: [], lags: [bond] },
        { id: 'key', activities: [key, wipe], lags: keyed },
      ],
    });
    for (const coat of [first, second, paint])
      surfaces.push({
        id: `film-${String(coat)}`,
        activity: coat,
        until: [{ kind: 'table', table: 3 }],
        coveredBy: [],
        source: `part-${String(p)}`,
      });
  }
  const shift = (from: number, to: number, rest: number): Problem['calendars'][number] => ({
    id: `${String(from)}-${String(to)}`,
    shifts: weekdays(days, from, to),
    breaks: weekdays(days, rest, rest + 30),
    overtime: [],
    source: 'roster',
  });
  const able = (...skills: number[]): Ability[] =>
    skills.map((skill) => ({
      skill,
      level: 1,
      speed: 80 + 10 * rng.below(5),
      needsSenior: false,
    }));
  return problem({
    horizon,
    skills: ['joinery', 'sanding', 'laminating'],
    calendars: [shift(420, 960, 720), shift(450, 750, 600), shift(360, 840, 600)],
    builders: [
      builder('Ilse', { abilities: able(0, 1) }),
      builder('Jory', { abilities: able(0, 1), calendar: 1 }),
      builder('Maëlle', { abilities: able(1, 2) }),
      builder('Nils', { abilities: able(1, 2), calendar: 2 }),
      builder('Oda', { abilities: able(2) }),
      builder('Per', { abilities: able(0, 1, 2), calendar: 1 }),
    ],
    spaces: [0, 1, 2, 3].map((s) => ({
      id: `space-${String(s)}`,
      dustReaches: (s === 0 ? [0, 1] : [s]).map((space) => ({ space, barrier: null })),
      settling: 45,
      source: 'space',
    })),
    resources: [{ id: 'room', steps: [{ from: 0, capacity: 6 }], calendar: null, source: 'room' }],
    activities,
    tables,
    lags,
    choices,
    surfaces,
    refits: [0, 1, 2].map((r) => ({
      id: `refit-${String(r)}`,
      release: 0,
      due: (10 + 3 * r) * DAY,
      handovers: [],
      weight: 3 - r,
      source: 'refit',
    })),
    tolerances: [0, 240, 0],
  });
}
