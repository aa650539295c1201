/**
 * `npm run bench [-- --only NAME[,NAME]] [--minutes N] [--seconds S] [--take K/N] [--fresh] [--keep]
 * [--json FILE]`: measures the engine against published results, general solvers and an oracle, and
 * on made-up yards, and prints figures with what is aimed at. Stops after `--minutes` (9 unless
 * given); the same command then continues where it stopped, and `npm run bench -- --report` writes
 * tests/bench/RESULTS.md from the last run of each.
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
import { machineNow } from './machine.ts';
import { Progress } from './progress.ts';
import { isComplete, type Report } from './report.ts';
import { sliceOf, type Slice } from './slice.ts';
import { keepReport, writeResults } from './store.ts';

interface Settings {
  readonly fresh: boolean;
  readonly keep: boolean;
  /** Seconds a solve beneath the bench's own; null: its own. */
  readonly most: number | null;
  readonly take: Slice | null;
  /** On the clock of `performance.now()`. */
  readonly until: number;
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

async function measure(bench: Bench, settings: Settings): Promise<Measured> {
  const { fresh, keep, most, take, until } = settings;
  console.log(`${bench.name}: ${bench.about}`);
  const progress = new Progress(bench.name, {
    fresh,
    keep,
    most,
    measures: bench.measures ?? [],
  });
  const units = bench.units();
  const wanted = new Set(take === null ? units : sliceOf(units, take));
  let warm = false;
  for (const unit of units) {
    if (progress.rows.has(unit) || !wanted.has(unit)) continue;
    // One is begun in any case, or a piece that is too short would never get on.
    if (warm && performance.now() + 1000 * bench.longest > until) break;
    if (!warm) await bench.prepare?.();
    warm = true;
    progress.add(unit, await bench.run(unit, most ?? Infinity));
  }
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
    machine: machineNow(),
    figures: rows.length === 0 ? [] : bench.summarise(rows).map(written),
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
    minutes: { type: 'string', default: '9' },
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
  until: performance.now() + 60_000 * positive('minutes', values.minutes),
};

if (values.report) {
  await writeResults(benches);
  console.log('Written: tests/bench/RESULTS.md');
} else {
  if (absence !== null && chosen.some((bench) => bench.publicFiles))
    refuse(`Not all can be measured: ${absence}.`);
  const measured: Measured[] = [];
  for (const bench of chosen) {
    if (measured.length > 0 && performance.now() > settings.until) {
      console.log(`${bench.name}: no time left, the same command continues.`);
      continue;
    }
    measured.push(await measure(bench, settings));
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
