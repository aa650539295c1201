import { createExact } from '#scheduling/search/exact/exact.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { readBenchmark } from '../../apps/cli/solve/solveFile.ts';
import { atLeast, column, quantile, short, type Bench, type Figure, type Row } from './bench.ts';
import { alone } from './published/heuristic.ts';
import { fileOf } from './published/units.ts';
import { mixed } from './slice.ts';
import { scaled, undivided } from './speed/scaled.ts';
import { Timed } from './speed/counted.ts';

const FACTOR = 60;
/** Rounds in which the clocks take turns, and milliseconds of each in a round. */
const ROUNDS = 8;
const SLICE = 400;
const SCHEDULES = 3000;

/** Files that take the learning core a while: the hard cells, and long windows. */
const files = [
  'j30/j3013_2.sm',
  'j30/j3029_6.sm',
  'j60/j609_8.sm',
  'j60/j6013_10.sm',
  'j60/j6029_8.sm',
  'j60/j6045_6.sm',
  'rcpsp-max/ubo50/psp10.sch',
  'rcpsp-max/ubo50/psp40.sch',
  'rcpsp-max/ubo100/psp4.sch',
  'rcpsp-max/ubo100/psp7.sch',
];

interface Clock {
  readonly problem: Problem;
  search: Timed;
  conflicts: number;
  conflictMs: number;
  schedules: number;
  scheduleMs: number;
}

const clockOf = (problem: Problem): Clock => ({
  problem,
  search: new Timed(createExact(problem, 1, null)),
  conflicts: 0,
  conflictMs: 0,
  schedules: 0,
  scheduleMs: 0,
});

/** What the search did since it was made is added up, and one that is done begins again. */
function settle(clock: Clock): void {
  clock.conflicts += clock.search.conflicts;
  clock.conflictMs += clock.search.milliseconds;
  clock.search = new Timed(createExact(clock.problem, 1, null));
}

function turn(clock: Clock): void {
  clock.search.run(SLICE);
  if (clock.search.done) settle(clock);
  const found = alone(clock.problem, SCHEDULES);
  clock.schedules += found?.schedules ?? 0;
  clock.scheduleMs += found?.milliseconds ?? 0;
}

function measure(unit: string): Row {
  const problem = readBenchmark(fileOf(unit).path);
  const long = scaled(problem, FACTOR);
  const clocks = [problem, long, undivided(long)].map(clockOf);
  clocks.forEach(turn);
  // What came before was warming up.
  const counted = clocks.map(({ problem: own }) => clockOf(own));
  for (let round = 0; round < ROUNDS; round += 1)
    (round % 2 === 0 ? counted : counted.toReversed()).forEach(turn);
  counted.forEach(settle);
  const [conflicts, schedules] = [
    counted.map((clock) => (1000 * clock.conflicts) / clock.conflictMs),
    counted.map((clock) => (1000 * clock.schedules) / clock.scheduleMs),
  ];
  const share = (rates: readonly number[], k: number): number | null =>
    Number.isFinite(rates[k] / rates[0]) ? (100 * rates[k]) / rates[0] : null;
  return {
    file: unit,
    conflicts: conflicts[0],
    schedules: schedules[0],
    conflictShare: share(conflicts, 1),
    scheduleShare: share(schedules, 1),
    undividedConflictShare: share(conflicts, 2),
    undividedScheduleShare: share(schedules, 2),
  };
}

function shares(rows: readonly Row[], key: string): [number, number] {
  const values = column(rows, key);
  return [quantile(values, 0.5), quantile(values, 0)];
}

function figures(rows: readonly Row[]): Figure[] {
  const told = (what: string, key: string): Figure => {
    const [median, least] = shares(rows, key);
    return { what, value: `${short(median)} (least ${short(least)})` };
  };
  const [conflicts] = shares(rows, 'conflictShare');
  const [schedules] = shares(rows, 'scheduleShare');
  return [
    atLeast('% of the conflicts a second kept, median', short(conflicts), 90),
    atLeast('% of the schedules a second kept, median', short(schedules), 90),
    told('the same of conflicts without a common divisor', 'undividedConflictShare'),
    told('the same of schedules without a common divisor', 'undividedScheduleShare'),
  ];
}

/** The price of a clock of minutes: the same work with all times sixty times as long. */
export const minuteClock: Bench = {
  name: 'minute-clock',
  about: `the same files with all times ${FACTOR} times as long, in turns in one process, by processor time`,
  publicFiles: true,
  longest: 60,
  units: () => mixed(files),
  run: (unit) => Promise.resolve(measure(unit)),
  summarise: figures,
  table: (rows) => ({
    head: ['file', 'conflicts/s', '% kept', 'no divisor', 'schedules/s', '% kept', 'no divisor'],
    lines: rows.map((row) => [
      String(row.file),
      ...[
        'conflicts',
        'conflictShare',
        'undividedConflictShare',
        'schedules',
        'scheduleShare',
        'undividedScheduleShare',
      ].map((key) => (typeof row[key] === 'number' ? String(short(row[key])) : 'none')),
    ]),
  }),
};
