import { measured } from './access/run.ts';
import { atMost, type Bench, type Figure, none, type Row, short } from './bench.ts';

const sizes = [800, 8000];
const claimsOf = (tasks: number): string => `claims in a yard of ${String(tasks)}`;
const listOf = (tasks: number): string => `ready list of ${String(tasks)}`;
const crowd = '500 subscribers and alarms';
const replan = 'first candidate of 800';

const number = (row: Row | undefined, key: string): number => {
  const value = row?.[key];
  return typeof value === 'number' ? value : NaN;
};
const pair = (row: Row, ...keys: readonly string[]): string =>
  keys.map((key) => String(short(number(row, key)))).join(', ');

/** What the service adds to its statements: the same ones sent by a handler of Fastify's. */
const besides = (what: string, row: Row, own: string, bare: string): Figure =>
  atMost(what, number(row, own) / number(row, bare), 1.5);

function claimFigures(tasks: number, row: Row): Figure[] {
  const where = `${String(tasks)} tasks`;
  return [
    { what: `claims a second by 16 at once, ${where}`, value: pair(row, 'PerSecond') },
    { what: 'a claim, ms: median, 99th percentile', value: pair(row, 'Ms', 'P99Ms') },
    besides(`its median over that of its statements alone, ${where}`, row, 'Ms', 'bareMs'),
    besides('its 99th percentile over theirs', row, 'P99Ms', 'bareP99Ms'),
  ];
}

function listFigures(tasks: number, row: Row): Figure[] {
  return (['quiet', 'busy'] as const).flatMap((when) => {
    const words = when === 'quiet' ? 'nothing happens' : 'a claim before each';
    return [
      {
        what: `ready list, ${String(tasks)} tasks, ${words}, ms: median, 99th percentile`,
        value: pair(row, `${when}Ms`, `${when}P99Ms`),
      },
      besides('its median over the bare handler’s', row, `${when}Ms`, `${when}BareMs`),
      besides('its 99th percentile over that', row, `${when}P99Ms`, `${when}BareP99Ms`),
    ];
  });
}

function crowdFigures(row: Row): Figure[] {
  return [
    { what: 'events told to 500 readers of two processes', value: number(row, 'events') },
    none('not received by all', number(row, 'missing')),
    { what: 'from commit to a reader, ms, median', value: short(number(row, 'medianMs')) },
    atMost('its 99th percentile', number(row, 'p99Ms'), 250, 'under 250'),
    {
      what: 'from the beginning of the change, 99th percentile, ms',
      value: short(number(row, 'p99SinceBegunMs')),
    },
    none('alarms that did not ring', number(row, 'ofAlarms') - number(row, 'alarms')),
    atMost('the latest of 40 alarms due at once, ms after its time', number(row, 'alarmMs'), 2000),
  ];
}

const replanFigures = (row: Row): Figure[] => [
  {
    what: `from a disturbance to its first candidate, 800 tasks, ms, median of ${String(number(row, 'candidates'))}`,
    value: short(number(row, 'medianMs')),
  },
  atMost('the worst of them', number(row, 'worstMs'), 2000),
];

export const live: Bench = {
  name: 'live',
  about:
    'claims and ready lists of yards of 800 and 8,000 tasks beside a bare Fastify handler that sends the same recorded statements; events to 500 readers; alarms under that load; first plans after a disturbance',
  publicFiles: false,
  longest: 300,
  measures: [
    'apps/{api,worker}/src/**/*.ts',
    'libs/{access,live,persistence,planning}/**/*.ts',
    'prisma/**/*.{prisma,sql}',
    'tests/bench/{access,live}/*.ts',
  ],
  units: () => [...sizes.flatMap((tasks) => [claimsOf(tasks), listOf(tasks)]), crowd, replan],
  run: (unit) => measured(unit, 'tests/bench/live/measure.ts'),
  summarise: (rows) => {
    const of = (unit: string): Row[] => rows.filter((row) => row.unit === unit);
    return [
      ...sizes.flatMap((tasks) => of(claimsOf(tasks)).flatMap((row) => claimFigures(tasks, row))),
      ...sizes.flatMap((tasks) => of(listOf(tasks)).flatMap((row) => listFigures(tasks, row))),
      ...of(crowd).flatMap(crowdFigures),
      ...of(replan).flatMap(replanFigures),
    ];
  },
};
