import { execFileSync } from 'node:child_process';
import { cpus, totalmem } from 'node:os';

/** The project's folder. */
export const root = new URL('../../', import.meta.url).pathname;

export interface Machine {
  readonly cores: number;
  readonly processor: string;
  /** Gibibytes. */
  readonly memory: number;
  readonly node: string;
}

export const machineNow = (): Machine => ({
  cores: cpus().length,
  processor: cpus().at(0)?.model.trim() ?? 'unknown',
  memory: Math.round(totalmem() / 2 ** 30),
  node: process.version,
});

/** Of rows that were made on several: the last, and what else they were. */
export function machineOf(all: readonly Machine[]): Machine {
  const last = all[all.length - 1];
  const every = (key: 'processor' | 'node'): string =>
    [...new Set(all.map((one) => one[key]))].join(' and ');
  return { ...last, processor: every('processor'), node: every('node') };
}

const git = (...words: string[]): string =>
  execFileSync('git', words, { cwd: root, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });

/** The commit checked out, with a plus where code has changed since; `unknown` without git. */
export function commitNow(): string {
  try {
    const changed = git(
      'status',
      '--porcelain',
      '--',
      'libs',
      'apps',
      'seeds',
      'tests',
      ':!tests/bench/RESULTS.md',
      ':!tests/bench/results.json',
      ':!tests/bench/unfinished',
    );
    return `${git('rev-parse', '--short=10', 'HEAD').trim()}${changed === '' ? '' : '+'}`;
  } catch {
    return 'unknown';
  }
}
