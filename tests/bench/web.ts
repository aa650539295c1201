import { measured } from './access/run.ts';
import { atLeast, atMost, type Bench, type Figure, type Row, short } from './bench.ts';

const load = 'first load';
const week = 'a week of 800 tasks';
const people = ['builder', 'foreman', 'owner'] as const;

const number = (row: Row, key: string): number => {
  const value = row[key];
  return typeof value === 'number' ? value : NaN;
};
const told = (row: Row, ...keys: readonly string[]): string =>
  keys.map((key) => String(short(number(row, key)))).join(', ');

const loadFigures = (row: Row): Figure[] => [
  atMost('scripts of a builder’s first load, compressed, KB', number(row, 'builderKb'), 120),
  { what: 'of a foreman’s, an owner’s', value: told(row, 'foremanKb', 'ownerKb') },
  { what: 'of the service worker besides', value: told(row, 'workerKb') },
  ...people.flatMap((who) => [
    atMost(`largest paint of a first load, ${who}, ms, median`, number(row, `${who}Ms`), 1000),
    { what: 'the worst of them', value: told(row, `${who}WorstMs`) },
  ]),
];

const weekFigures = (row: Row): Figure[] => [
  atLeast('tasks in the week', number(row, 'tasks'), 800),
  { what: 'frames made while moving through it', value: told(row, 'frames') },
  atMost('main thread a frame, ms, 95th percentile', number(row, 'allP95Ms'), 8),
  atMost('the same by wheel alone', number(row, 'wheelP95Ms'), 8),
  atMost('by keys alone', number(row, 'keysP95Ms'), 8),
  {
    what: 'medians by wheel, by keys; the worst of all passes; the longest task between frames',
    value: told(row, 'wheelMs', 'keysMs', 'worstMs', 'betweenMs'),
  },
  {
    what: 'the 95th percentile over that of a bare page of as many blocks, by wheel',
    value: short(number(row, 'wheelP95Ms') / number(row, 'bareWheelP95Ms')),
  },
  {
    what: 'the same by keys',
    value: short(number(row, 'keysP95Ms') / number(row, 'bareKeysP95Ms')),
  },
];

export const web: Bench = {
  name: 'web',
  about:
    'first loads of the screens of the demo yard, with nothing kept, from the api of the same machine; moving through a week of more than 800 tasks by wheel and by keys, of three passes the middle one, traced in the browser without a GPU, beside a bare page of as many plain blocks',
  publicFiles: false,
  longest: 180,
  measures: [
    'apps/web/{src,build,service-worker}/**/*.{ts,tsx,css}',
    'apps/api/src/**/*.ts',
    'tests/bench/web/*.ts',
  ],
  units: () => [load, week],
  run: (unit) => measured(unit, 'tests/bench/web/measure.ts'),
  summarise: (rows) =>
    rows.flatMap((row) => (row.unit === load ? loadFigures(row) : weekFigures(row))),
};
