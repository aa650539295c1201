import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { FLAT_EVENT, readEvents, type Solve } from './events.ts';

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

export type Solver = 'chuffed' | 'gecode' | 'highs' | 'coin-bc';

export interface Limits {
  readonly solver: Solver;
  /** For flattening and solving. */
  readonly seconds: number;
  /**
   * The solve is over in a second or so: V8 compiles WebAssembly by its baseline compiler alone and
   * collects garbage seldom, which took the processor time of such a solve, start of the process
   * included, from 5.7 s to 2.1 s.
   */
  readonly short: boolean;
}

/** Seconds for starting a process and flattening beyond the limit, on a busy machine. */
const PATIENCE = 120;
/** Seconds to start a process that is watched, and for it to stop by itself once its time is up. */
const STARTING = 3;
const GRACE = 2;

const program = new URL('./program.ts', import.meta.url).pathname;

/** Model, what it includes and data (`.dzn`) by file name, the model first. */
export type Texts = Readonly<Record<string, string>>;

interface Run {
  readonly solver: Solver;
  /** For flattening and solving together, and for solving alone. */
  readonly seconds: number;
  readonly alone: number;
  readonly flags: readonly string[];
  readonly patience: Patience;
}

/** Seconds until the model has to be flat, and from there to the end; null: one limit for both. */
interface Patience {
  readonly flat: number;
  readonly solve: number | null;
}

/** What was said until the process was over, or had to be ended. */
function said(paths: readonly string[], run: Run): Promise<string> {
  const { solver, seconds, alone, flags, patience } = run;
  const words = [program, solver, String(1000 * seconds), String(1000 * alone), ...paths];
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [...flags, ...words], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let [out, err] = ['', ''];
    let ended = false;
    let flat = false;
    const end = (): void => {
      ended = true;
      child.kill('SIGKILL');
    };
    let timer = setTimeout(end, 1000 * patience.flat);
    child.stdout.setEncoding('utf8').on('data', (piece: string) => {
      out += piece;
      if (flat || patience.solve === null || !out.includes(FLAT_EVENT)) return;
      flat = true;
      clearTimeout(timer);
      timer = setTimeout(end, 1000 * patience.solve);
    });
    child.stderr.setEncoding('utf8').on('data', (piece: string) => {
      err += piece;
    });
    child.on('error', (error) => {
      clearTimeout(timer);
      reject(error);
    });
    child.on('close', (code) => {
      clearTimeout(timer);
      // Ended by us is an answer: whatever was found until then.
      if (code !== 0 && !ended)
        reject(new Error(`the solver's process ended with ${code}: ${err}`));
      else resolve(out);
    });
  });
}

async function solveIn(texts: Texts, run: Run): Promise<Solve> {
  const folder = mkdtempSync(join(tmpdir(), 'minizinc-'));
  try {
    const paths = Object.entries(texts).map(([name, text]) => {
      const path = join(folder, name);
      writeFileSync(path, text);
      return path;
    });
    return readEvents(await said(paths, run));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/**
 * Solves a model in a fresh process. Throws where the model is wrong, the solver breaks or the
 * process does not end.
 */
export async function solveModel(
  texts: Texts,
  { solver, seconds, short }: Limits,
): Promise<Answer> {
  const flags = short ? ['--liftoff-only', '--max-semi-space-size=64'] : [];
  const patience = { flat: seconds + PATIENCE, solve: null };
  const solve = await solveIn(texts, { solver, seconds, alone: seconds, flags, patience });
  const { status, solutions, failure, readyAt, endAt } = solve;
  if (failure !== null) throw new Error(`the solver failed: ${failure}`);
  if (readyAt === null || endAt === null) throw new Error('the solver did not come to an end');
  return { status, output: solutions.at(-1)?.output ?? null, failure, seconds: endAt - readyAt };
}

/**
 * The course of a solve in a fresh process, its solutions with their times: so many seconds to
 * solve, and up to `flattening` to flatten before. A solver that does not stop by itself is ended
 * (COIN-BC here knows no limit). A failure is told, not thrown.
 */
export function watchSolve(
  texts: Texts,
  solver: Solver,
  seconds: number,
  flattening: number,
): Promise<Solve> {
  const patience = { flat: STARTING + flattening, solve: seconds + GRACE };
  const all = seconds + flattening;
  return solveIn(texts, { solver, seconds: all, alone: seconds, flags: [], patience });
}
