import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { format, resolveConfig } from 'prettier';
import type { Bench } from './bench.ts';
import { root } from './machine.ts';
import { engineHash } from './progress.ts';
import { isComplete, preferred, type Report } from './report.ts';
import { resultsPage } from './results.ts';

const folder = join(root, '.curewright', 'bench', 'last');
/** Kept with the code, so that a piece that is not run again keeps its place on the page. */
const figures = join(root, 'tests', 'bench', 'results.json');
const page = join(root, 'tests', 'bench', 'RESULTS.md');

const read = (file: string): string | null =>
  existsSync(file) ? readFileSync(file, 'utf8') : null;

/** Remembers the last complete and the last partial run of each bench. */
export function keepReport(report: Report): void {
  mkdirSync(folder, { recursive: true });
  const kind = isComplete(report) ? 'complete' : 'partial';
  writeFileSync(join(folder, `${report.bench}.${kind}.json`), JSON.stringify(report));
}

async function write(file: string, text: string): Promise<void> {
  const config = await resolveConfig(file);
  writeFileSync(file, await format(text, { ...config, filepath: file }));
}

/** Writes the results page of all benches that were ever run. */
export async function writeResults(benches: readonly Bench[]): Promise<void> {
  const before = JSON.parse(read(figures) ?? '[]') as Report[];
  const present = new Map(benches.map(({ name, measures }) => [name, engineHash(measures ?? [])]));
  const known = new Map(before.map((report) => [report.bench, report]));
  for (const { name } of benches)
    for (const kind of ['partial', 'complete']) {
      const text = read(join(folder, `${name}.${kind}.json`));
      if (text === null) continue;
      const report = JSON.parse(text) as Report;
      known.set(name, preferred(known.get(name), report, present.get(name)));
    }
  const reports = benches.flatMap(({ name }) => known.get(name) ?? []);
  await write(figures, JSON.stringify(reports));
  await write(page, resultsPage(reports, present));
}
