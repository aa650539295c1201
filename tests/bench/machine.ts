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
