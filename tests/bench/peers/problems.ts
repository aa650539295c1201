import type { Problem } from '#scheduling/model/problem.ts';
import type { YardSettings } from '#seeds/generate/yard.ts';
import { readBenchmark } from '../../../apps/cli/solve/solveFile.ts';
import { fileOf, filesOf } from '../published/units.ts';
import { mixed } from '../slice.ts';
import { GRID } from './grid.ts';

/** Tight yards of one boat or two, which have something to decide; and a few loose ones. */
const kindsOfRefits: readonly (readonly YardSettings[])[] = [
  [6, 7, 12, 14].map((seed) => refit(15, 1, 'cold', 'tight', seed)),
  [1, 3, 4].map((seed) => refit(40, 2, 'warm', 'tight', seed)),
  [1, 2, 3].map((seed) => refit(15, 1, 'warm', 'tight', seed)),
  [1, 2, 3].map((seed) => refit(30, 2, 'warm', 'tight', seed)),
  [1, 2, 3].map((seed) => refit(22, 1, 'cold', 'tight', seed)),
  [1, 2].map((seed) => refit(40, 2, 'cold', 'tight', seed)),
  [1, 2].map((seed) => refit(15, 1, 'warm', 'loose', seed)),
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
  const found = kindsOfRefits.flat().find((settings) => nameOf(settings) === name);
  if (found === undefined) throw new Error(`there is no refit ${name}`);
  return found;
}

/** How many files of a set, evenly spread. */
const shares: readonly (readonly [set: string, files: number])[] = [
  ['j30', 8],
  ['max-cal', 5],
  ['j60', 6],
  ['mm-j10', 6],
  ['rcpsp-max/ubo50', 5],
  ['mspsp/instlib', 3],
  ['rcpsp-max/ubo20', 4],
  ['mspsp/mzn12', 3],
];

function spread(set: string, files: number): string[] {
  const names = [...filesOf([set]).keys()];
  const step = names.length / files;
  return Array.from({ length: files }, (_, k) => names[Math.floor((k + 0.5) * step)]);
}

/**
 * The sample, twenty refits and forty files, in such an order that whatever has been run of it is a
 * sample too: first one of each kind, a file and a refit in turn, then the k-th of n of a kind at k / n.
 */
export function peerProblems(): readonly string[] {
  const kinds = shares.flatMap(([set, files], k) => {
    const own = kindsOfRefits.at(k)?.map(nameOf);
    return [spread(set, files), own ?? []];
  });
  return kinds
    .flatMap((names, kind) => mixed(names).map((name, k) => ({ name, kind, at: k / names.length })))
    .toSorted((a, b) => a.at - b.at || a.kind - b.kind)
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
