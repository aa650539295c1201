import { createExact } from '#scheduling/search/exact/exact.ts';
import { toPureModel } from '#scheduling/search/exact/pure.ts';
import { generator } from '#scheduling/search/list/throughput.ts';
import { readBenchmark } from '../../apps/cli/solve/solveFile.ts';
import {
  atLeast,
  column,
  quantile,
  short,
  told,
  type Bench,
  type Figure,
  type Row,
} from './bench.ts';
import { alone } from './published/heuristic.ts';
import { fileOf, filesOf } from './published/units.ts';
import { Timed } from './speed/counted.ts';
import { exponent } from './speed/growth.ts';
import { decodeRate, firstPlanMs, yardOf } from './speed/yard.ts';

/** Aims: schedules a second by set, decodes a second by tasks. */
const SCHEDULES = [
  ['j30', 300_000],
  ['j60', 200_000],
  ['j120', 100_000],
] as const;
const DECODES = [
  [120, 8000],
  [800, 1500],
] as const;
const GROWTH = [100, 200, 400, 800, 1600, 3200] as const;
/** Files of a set, schedules of each, and before them to warm up. */
const FILES = 6;
const BUDGET = 20_000;
const WARMING = 2000;
const MILLISECONDS = 3000;
/** Files on which the learning core is at work for long. */
const CORE = [
  'j60/j6013_10.sm',
  'j60/j6029_8.sm',
  'rcpsp-max/ubo50/psp10.sch',
  'rcpsp-max/ubo100/psp4.sch',
];

function schedules(set: string): Row {
  const all = [...filesOf([set]).keys()];
  const files = Array.from(
    { length: FILES },
    (_, k) => all[Math.floor(((k + 0.5) * all.length) / FILES)],
  );
  const rates = files.map((file) => {
    const problem = readBenchmark(fileOf(file).path);
    const passes = generator(toPureModel(problem), 1);
    passes?.run(WARMING);
    const from = process.cpuUsage();
    passes?.run(BUDGET);
    const { user, system } = process.cpuUsage(from);
    alone(problem, WARMING);
    const found = alone(problem, BUDGET);
    return {
      generation: passes === null ? NaN : (1e6 * BUDGET) / (user + system),
      search: found === null ? NaN : (1000 * found.schedules) / found.milliseconds,
    };
  });
  return {
    kind: 'schedules',
    set,
    rate: quantile(column(rates, 'generation'), 0.5),
    search: quantile(column(rates, 'search'), 0.5),
  };
}

function decoding(tasks: number): Row {
  const [loose, tight] = (['loose', 'tight'] as const).map((tightness) => {
    const { decodes, whole, milliseconds } = decodeRate(yardOf(tasks, tightness), MILLISECONDS);
    return { rate: (1000 * decodes) / milliseconds, whole: (1000 * whole) / milliseconds };
  });
  return {
    kind: 'decodes',
    tasks,
    loose: loose.rate,
    tight: tight.rate,
    wholeLoose: loose.whole,
    wholeTight: tight.whole,
  };
}

function core(file: string): Row {
  const problem = readBenchmark(fileOf(file).path);
  new Timed(createExact(problem, 2, null)).run(MILLISECONDS / 5);
  const search = new Timed(createExact(problem, 1, null));
  search.run(MILLISECONDS);
  return {
    kind: 'core',
    file,
    conflicts: search.rate,
    propagations: Number.isFinite(search.bounds) ? search.bounds : null,
  };
}

function growing(tasks: number): Row {
  const problem = yardOf(tasks, 'tight');
  firstPlanMs(yardOf(GROWTH[0], 'tight', 2));
  const first = firstPlanMs(problem);
  const { decodes, milliseconds } = decodeRate(problem, MILLISECONDS / 3);
  return {
    kind: 'growth',
    tasks: problem.activities.length,
    firstPlanMs: first,
    decodeMs: milliseconds / decodes,
  };
}

const units = new Map<string, () => Row>([
  ...SCHEDULES.map(([set]): [string, () => Row] => [`schedules/${set}`, () => schedules(set)]),
  ...DECODES.map(([tasks]): [string, () => Row] => [`decodes/${tasks}`, () => decoding(tasks)]),
  ...CORE.map((file): [string, () => Row] => [`core/${file}`, () => core(file)]),
  ...GROWTH.map((tasks): [string, () => Row] => [`growth/${tasks}`, () => growing(tasks)]),
]);

const number = (value: Row[string] | undefined): number =>
  typeof value === 'number' ? value : NaN;

function growthFigures(rows: readonly Row[]): Figure[] {
  const own = rows.filter(({ kind }) => kind === 'growth');
  if (own.length < 2) return [];
  return (['decodeMs', 'firstPlanMs'] as const).flatMap((key): Figure[] => {
    const points = own.map((row) => [number(row.tasks), number(row[key])] as const);
    const what = key === 'decodeMs' ? 'a decode' : 'a first plan';
    return [
      {
        what: `${what} at ${points.map(([tasks]) => tasks).join(', ')} tasks, ms`,
        value: points.map(([, ms]) => short(ms)).join(', '),
      },
      { what: `${what} grows as tasks to the power of`, value: short(exponent(points)) },
    ];
  });
}

function figures(rows: readonly Row[]): Figure[] {
  const cores = rows.filter(({ kind }) => kind === 'core');
  return [
    ...SCHEDULES.flatMap(([set, aim]): Figure[] => {
      const row = rows.find((one) => one.set === set);
      return row === undefined
        ? []
        : [
            atLeast(`schedules a second on ${set}`, Math.round(number(row.rate)), aim),
            {
              what: `the same in the population search, ${set}`,
              value: Math.round(number(row.search)),
            },
          ];
    }),
    ...DECODES.flatMap(([tasks, aim]): Figure[] => {
      const row = rows.find((one) => one.kind === 'decodes' && one.tasks === tasks);
      if (row === undefined) return [];
      const [loose, tight] = [Math.round(number(row.loose)), Math.round(number(row.tight))];
      return [
        atLeast(`decodes a second at ${tasks} tasks, the slower yard`, Math.min(loose, tight), aim),
        {
          what: `decodes a second at ${tasks} tasks, loose and tight`,
          value: `${loose}, ${tight}`,
        },
        {
          what: `the same in whole decodes' worth, ${tasks} tasks`,
          value: `${Math.round(number(row.wholeLoose))}, ${Math.round(number(row.wholeTight))}`,
        },
      ];
    }),
    ...cores.map(({ file, conflicts, propagations }) => ({
      what: `conflicts and bounds raised a second, ${String(file)}`,
      value: `${Math.round(number(conflicts))}, ${Math.round(number(propagations))}`,
    })),
    {
      what: 'conflicts a second, median',
      value: told(quantile(column(cores, 'conflicts'), 0.5)),
    },
    ...growthFigures(rows),
  ];
}

/** How much work the parts get through, by processor time of one thread. */
export const throughput: Bench = {
  name: 'throughput',
  about:
    'schedules, decodes, conflicts and bounds raised a second of processor time, one thread, and growth with the tasks',
  publicFiles: true,
  measures: ['libs/planning/**/*.ts', 'seeds/generate/*.ts'],
  longest: 60,
  units: () => [...units.keys()],
  run(unit) {
    const measure = units.get(unit);
    if (measure === undefined) throw new Error(`there is no unit ${unit}`);
    return Promise.resolve(measure());
  },
  summarise: figures,
};
