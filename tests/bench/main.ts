/**
 * `npm run bench [-- --only NAME[,NAME]] [--minutes N] [--seconds S] [--take K/N] [--fresh] [--keep]
 * [--report] [--json FILE]`: measures the engine against published results, general solvers and an
 * oracle, and on made-up yards, and prints figures with what is aimed at. Stops after `--minutes` (9
 * unless given), of which each bench gets an equal share of what those before it left: the short ones
 * come first. The same command then continues where it stopped. `--report` writes
 * tests/bench/RESULTS.md from the last run of each bench after every bench; without `--minutes` and
 * `--only` it measures nothing.
 *
 * `--seconds`: at most so many seconds a solve, beneath the bench's own limit; rows under another
 * limit are not mixed in. `--take K/N`: only the K-th of N slices of the units. When the engine has
 * changed a bench starts anew; `--keep` keeps the rows and names the commits, `--fresh` drops rows
 * in any case. Exit 1 if a target was missed, 2 on bad usage.
 */
import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { absence } from '../reference/data.ts';
import type { Bench, Figure } from './bench.ts';
import { benches } from './benches.ts';
import { machineOf } from './machine.ts';
import { lasting, Progress } from './progress.ts';
import { isComplete, type Report } from './report.ts';
import { sliceOf, type Slice } from './slice.ts';
import { keepReport, writeResults } from './store.ts';

const MINUTES = '9';

interface Settings {
  readonly fresh: boolean;
  readonly keep: boolean;
  /** Seconds a solve beneath the bench's own; null: its own. */
  readonly most: number | null;
  readonly take: Slice | null;
}

interface Measured {
  readonly report: Report;
  readonly rows: Readonly<Record<string, unknown>>;
}

function print({ figures, done, of, command }: Report): void {
  for (const { what, value, target, met } of figures) {
    const verdict = `${met === true ? 'met' : 'missed'}${done < of ? ' so far' : ''}`;
    const aim = target === undefined ? '' : `   target ${target}: ${verdict}`;
    console.log(`  ${what.padEnd(52)} ${String(value).padStart(8)}${aim}`);
  }
  if (done < of) console.log(`  ${done} of ${of} done, which is no verdict yet.`);
  console.log(`  ${done < of ? 'To continue' : 'Again'}: ${command}`);
}

/** Numbers that JSON does not know, in words. */
const written = (figure: Figure): Figure =>
  typeof figure.value !== 'number' || Number.isFinite(figure.value)
    ? figure
    : { ...figure, value: Number.isNaN(figure.value) ? '-' : 'none' };

/** On the clock of `performance.now()`. */
interface Clock {
  /** No unit is begun after this, */
  readonly share: number;
  /** nor one that could end after this. */
  readonly end: number;
}

/**
 * Runs units one after another until none is left or none could end in time. Gives what went wrong
 * with a unit, which then has no row and is tried again the next time.
 */
async function runUnits(
  units: readonly string[],
  { bench, progress, most, clock }: Piece,
): Promise<readonly string[]> {
  const failures: string[] = [];
  const isTime = (now: number): boolean =>
    now < clock.share && now + 1000 * bench.longest <= clock.end;
  for (const [index, unit] of units.entries()) {
    // One is begun in any case, or a piece that is too short would never get on.
    if (index > 0 && !isTime(performance.now())) break;
    try {
      progress.add(unit, await bench.run(unit, most, progress.rows));
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      failures.push(`${unit}: ${message.split('\n')[0]}`);
      console.error(`  ${unit} failed: ${message}`);
    }
  }
  return failures;
}

interface Piece {
  readonly bench: Bench;
  readonly progress: Progress;
  readonly most: number;
  readonly clock: Clock;
}

async function measure(bench: Bench, settings: Settings, clock: Clock): Promise<Measured> {
  const { fresh, keep, most, take } = settings;
  console.log(`${bench.name}: ${bench.about}`);
  const options = { fresh, keep, most, measures: bench.measures ?? [] };
  const progress = new Progress(bench.name, options, bench.isLong === true ? lasting : undefined);
  const units = bench.units();
  const wanted = take === null ? units : sliceOf(units, take);
  const left = wanted.filter((unit) => !progress.rows.has(unit));
  if (left.length > 0) await bench.prepare?.();
  const failures = await runUnits(left, { bench, progress, most: most ?? Infinity, clock });
  const rows = units.flatMap((unit) => {
    const row = progress.rows.get(unit);
    return row === undefined ? [] : [row];
  });
  const report: Report = {
    bench: bench.name,
    about: bench.about,
    command: `npm run bench -- --only ${bench.name}${most === null ? '' : ` --seconds ${most}`}`,
    done: rows.length,
    of: units.length,
    engine: progress.made[progress.made.length - 1].engine,
    commits: [...new Set(progress.made.map(({ commit }) => commit))].join(' '),
    from: progress.made[0].from,
    to: new Date().toISOString(),
    most,
    machine: machineOf(progress.made.map(({ machine }) => machine)),
    figures: [
      ...(rows.length === 0 ? [] : bench.summarise(rows).map(written)),
      ...failures.map((value): Figure => ({ what: 'failed', value, target: 'none', met: false })),
    ],
    table: rows.length === 0 ? null : (bench.table?.(rows) ?? null),
  };
  print(report);
  keepReport(report);
  if (isComplete(report)) progress.close();
  return { report, rows: Object.fromEntries(progress.rows) };
}

function refuse(message: string): never {
  console.error(message);
  process.exit(2);
}

const positive = (option: string, word: string): number =>
  Number(word) > 0
    ? Number(word)
    : refuse(`--${option} "${word}" is no time: give a number greater than 0.`);

function takeOf(word: string): Slice {
  const [k, n] = word.split('/').map(Number);
  if (Number.isInteger(k) && Number.isInteger(n) && 1 <= k && k <= n) return { k, n };
  return refuse(`--take "${word}" is no slice: give K/N, e.g. 2/6 for the second of six.`);
}

const { values } = parseArgs({
  options: {
    only: { type: 'string' },
    json: { type: 'string' },
    minutes: { type: 'string' },
    seconds: { type: 'string' },
    take: { type: 'string' },
    fresh: { type: 'boolean', default: false },
    keep: { type: 'boolean', default: false },
    report: { type: 'boolean', default: false },
  },
});
const names = benches.map((bench) => bench.name);
const wanted = values.only?.split(',') ?? names;
const strangers = wanted.filter((name) => !names.includes(name));
if (strangers.length > 0)
  refuse(`--only "${strangers.join(',')}" is no bench: give one of ${names.join(', ')}.`);
const chosen = benches.filter(({ name }) => wanted.includes(name));
const settings: Settings = {
  fresh: values.fresh,
  keep: values.keep,
  most: values.seconds === undefined ? null : positive('seconds', values.seconds),
  take: values.take === undefined ? null : takeOf(values.take),
};
const end = performance.now() + 60_000 * positive('minutes', values.minutes ?? MINUTES);

async function report(): Promise<void> {
  await writeResults(benches);
  console.log('Written: tests/bench/RESULTS.md');
}

if (values.report && values.minutes === undefined && values.only === undefined) {
  await report();
} else {
  if (absence !== null && chosen.some((bench) => bench.publicFiles))
    refuse(`Not all can be measured: ${absence}.`);
  const measured: Measured[] = [];
  for (const [k, bench] of chosen.entries()) {
    const now = performance.now();
    if (measured.length > 0 && now > end) {
      console.log(`${bench.name}: no time left, the same command continues.`);
      continue;
    }
    const share = now + (end - now) / (chosen.length - k);
    measured.push(await measure(bench, settings, { share, end }));
    if (values.report) await report();
  }
  if (values.json !== undefined) {
    writeFileSync(
      resolve(process.env.INIT_CWD ?? process.cwd(), values.json),
      `${JSON.stringify(measured, null, 2)}\n`,
    );
  }
  const missed = measured.some(
    ({ report }) => isComplete(report) && report.figures.some(({ met }) => met === false),
  );
  process.exitCode = missed ? 1 : 0;
}
