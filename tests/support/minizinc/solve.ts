import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';

/** What a solver said of a model. */
export interface Answer {
  /** As MiniZinc words it: OPTIMAL_SOLUTION, SATISFIED, UNSATISFIABLE, UNKNOWN, … */
  readonly status: string;
  /** What the model printed of the best solution. */
  readonly output: string | null;
  readonly failure: string | null;
  /** Flattening and solving, without starting the process. */
  readonly seconds: number;
}

export interface Limits {
  readonly solver: 'chuffed' | 'gecode';
  readonly seconds: number;
  /**
   * The solve is over in a second or so: V8 compiles WebAssembly by its baseline compiler alone and
   * collects garbage seldom, which took the processor time of such a solve, start of the process
   * included, from 5.7 s to 2.1 s.
   */
  readonly short: boolean;
}

/** For starting a process and flattening beyond the limit, on a busy machine. */
const PATIENCE_MS = 120_000;

const program = new URL('./program.ts', import.meta.url).pathname;
const run = promisify(execFile);

/**
 * Solves a model in a fresh process. `texts` are files by name: the model first, then what it
 * includes and its data (`.dzn`). Throws where the model is wrong or the solver breaks.
 */
export async function solveModel(
  texts: Readonly<Record<string, string>>,
  { solver, seconds, short }: Limits,
): Promise<Answer> {
  const folder = mkdtempSync(join(tmpdir(), 'minizinc-'));
  try {
    const paths = Object.entries(texts).map(([name, text]) => {
      const path = join(folder, name);
      writeFileSync(path, text);
      return path;
    });
    const flags = short ? ['--liftoff-only', '--max-semi-space-size=64'] : [];
    const words = [...flags, program, solver, String(1000 * seconds), ...paths];
    const { stdout } = await run(process.execPath, words, {
      timeout: 1000 * seconds + PATIENCE_MS,
      maxBuffer: 1 << 24,
    });
    const answer = JSON.parse(stdout.trim().split('\n').at(-1) ?? '') as Answer;
    if (answer.failure !== null) throw new Error(`the solver failed: ${answer.failure}`);
    return answer;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
