/**
 * `npm run bench [-- --only NAME] [--json FILE] [--minutes N] [--fresh]`: measures the engine
 * against published results, an oracle and a peer, and on made-up yards. Stops after `--minutes` (9 unless given); the same
 * command then continues where it stopped. Exit 1 if a target was missed, 2 on bad usage.
 */
import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { absence } from '../reference/data.ts';
import type { Bench, Figure } from './bench.ts';
import { cure } from './cure.ts';
import { oracle } from './oracle.ts';
import { peer } from './peer.ts';
import { Progress } from './progress.ts';
import { j30, max, multi } from './published.ts';
import { refit } from './refit.ts';

const benches: readonly Bench[] = [j30, max, multi, oracle, refit, cure, peer];

interface Report {
  readonly bench: string;
  readonly complete: boolean;
  readonly figures: readonly Figure[];
  readonly rows: Record<string, unknown>;
}

async function measure(bench: Bench, fresh: boolean, until: number): Promise<Report> {
  console.log(`${bench.name}: ${bench.about}`);
  const progress = new Progress(bench.name, fresh, bench.measures ?? []);
  const units = bench.units();
  for (const unit of units) {
    if (progress.rows.has(unit)) continue;
    if (performance.now() > until) break;
    progress.add(unit, await bench.run(unit));
  }
  const complete = progress.rows.size === units.length;
  const figures = bench.summarise([...progress.rows.values()]);
  for (const { what, value, target, met } of figures) {
    const aim =
      target === undefined ? '' : `   target ${target}: ${met === true ? 'met' : 'missed'}`;
    console.log(`  ${what.padEnd(38)} ${String(value).padStart(8)}${complete ? aim : ''}`);
  }
  if (complete) progress.close();
  else console.log(`  ${progress.rows.size} of ${units.length} done: the same command continues.`);
  return { bench: bench.name, complete, figures, rows: Object.fromEntries(progress.rows) };
}

function refuse(message: string): never {
  console.error(message);
  process.exit(2);
}

const { values } = parseArgs({
  options: {
    only: { type: 'string' },
    json: { type: 'string' },
    minutes: { type: 'string', default: '9' },
    fresh: { type: 'boolean', default: false },
  },
});
const names = benches.map((bench) => bench.name).join(', ');
const chosen = benches.filter((bench) => values.only === undefined || bench.name === values.only);
if (chosen.length === 0)
  refuse(`--only "${String(values.only)}" is no bench: give one of ${names}.`);
const minutes = Number(values.minutes);
if (!(minutes > 0))
  refuse(`--minutes "${values.minutes}" is no time: give a number greater than 0.`);
if (absence !== null && chosen.some((bench) => bench.publicFiles))
  refuse(`Not all can be measured: ${absence}.`);

const until = performance.now() + 60_000 * minutes;
const reports: Report[] = [];
for (const bench of chosen) reports.push(await measure(bench, values.fresh, until));
if (values.json !== undefined) {
  writeFileSync(
    resolve(process.env.INIT_CWD ?? process.cwd(), values.json),
    `${JSON.stringify(reports, null, 2)}\n`,
  );
}
const missed = reports.some(
  (report) => report.complete && report.figures.some((f) => f.met === false),
);
process.exitCode = missed ? 1 : 0;
