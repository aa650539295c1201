import type { Problem } from '#scheduling/model/problem.ts';
import type { YardSettings } from '#seeds/generate/yard.ts';
import { readBenchmark } from '../../../apps/cli/solve/solveFile.ts';
import { fileOf, filesOf } from '../published/units.ts';
import { GRID } from './grid.ts';

/** Tight yards of one boat or two, which have something to decide; and a few loose ones. */
const refits: readonly YardSettings[] = [
  ...[6, 7, 12, 14].map((seed) => refit(15, 1, 'cold', 'tight', seed)),
  ...[1, 2, 3].map((seed) => refit(15, 1, 'warm', 'tight', seed)),
  ...[1, 2].map((seed) => refit(15, 1, 'warm', 'loose', seed)),
  ...[1, 2, 3].map((seed) => refit(22, 1, 'cold', 'tight', seed)),
  ...[1, 2, 3].map((seed) => refit(30, 2, 'warm', 'tight', seed)),
  ...[1, 3, 4].map((seed) => refit(40, 2, 'warm', 'tight', seed)),
  ...[1, 2].map((seed) => refit(40, 2, 'cold', 'tight', seed)),
];

function refit(
  tasks: number,
  boats: number,
  season: YardSettings['season'],
  tightness: YardSettings['tightness'],
  seed: number,
): YardSettings {
  return { tasks, boats, season, tightness, seed };
}

const nameOf = ({ tasks, boats, season, tightness, seed }: YardSettings): string =>
  `refit/${tasks}/${boats}/${season}/${tightness}/${seed}`;

function settingsOf(name: string): YardSettings {
  const found = refits.find((settings) => nameOf(settings) === name);
  if (found === undefined) throw new Error(`there is no refit ${name}`);
  return found;
}

/** How many files of a set, evenly spread. */
const shares: readonly (readonly [set: string, files: number])[] = [
  ['j30', 8],
  ['j60', 6],
  ['rcpsp-max/ubo20', 4],
  ['rcpsp-max/ubo50', 5],
  ['mm-j10', 6],
  ['mspsp/mzn12', 3],
  ['mspsp/instlib', 3],
  ['max-cal', 5],
];

function spread(set: string, files: number): string[] {
  const names = [...filesOf([set]).keys()];
  const step = names.length / files;
  return Array.from({ length: files }, (_, k) => names[Math.floor((k + 0.5) * step)]);
}

/**
 * The sample, twenty refits and forty files, mixed so that whatever has been run of it in order is
 * a sample too: the k-th of n of a kind stands at (k + 1/2) / n.
 */
export function peerProblems(): readonly string[] {
  const kinds = [refits.map(nameOf), ...shares.map(([set, files]) => spread(set, files))];
  return kinds
    .flatMap((names) => names.map((name, k) => ({ name, at: (k + 0.5) / names.length })))
    .toSorted((a, b) => a.at - b.at || (a.name < b.name ? -1 : 1))
    .map(({ name }) => name);
}

export const isRefit = (name: string): boolean => name.startsWith('refit/');

/**
 * The problem as both sides get it: a file as it is, a refit in steps of `GRID` minutes. What makes
 * a yard is loaded only where it is needed: it would count as start-up.
 */
export async function peerProblem(name: string): Promise<Problem> {
  if (!isRefit(name)) return readBenchmark(fileOf(name).path);
  const { yardOnGrid } = await import('./yard.ts');
  return yardOnGrid(settingsOf(name), GRID);
}
