import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Solver } from '../support/minizinc/solve.ts';
import type { Bench, Row } from './bench.ts';
import type { Course } from './peers/course.ts';
import { byPeer, FLATTENING, SOLVERS } from './peers/peer.ts';
import { GRID } from './peers/grid.ts';
import { isRefit, peerProblem, peerProblems } from './peers/problems.ts';
import { contradiction } from '../reference/data.ts';
import { fileOf } from './published/units.ts';
import { builtProgram } from './peers/program.ts';
import { enoughFor, LEAST, peersFigures, peersTable, tooLargeFor } from './peers/summary.ts';

const SECONDS = 60;
/** For starting a process on a busy machine. */
const PATIENCE_MS = 60_000;

let program = '';
const run = promisify(execFile);

interface OwnCourse extends Course {
  readonly wrong: number;
}

async function solve(file: string, seconds: number): Promise<OwnCourse> {
  const { stdout } = await run(process.execPath, [program, file, String(seconds)], {
    timeout: 1000 * seconds + PATIENCE_MS,
    maxBuffer: 1 << 24,
  });
  return JSON.parse(stdout.trim().split('\n').at(-1) ?? '') as OwnCourse;
}

/** A refit is made beforehand, as the peers' models are. */
async function byUs(name: string, seconds: number): Promise<OwnCourse> {
  if (!isRefit(name)) return solve(fileOf(name).path, seconds);
  const folder = mkdtempSync(join(tmpdir(), 'refit-'));
  try {
    const file = join(folder, 'refit.problem');
    writeFileSync(file, JSON.stringify(await peerProblem(name)));
    return await solve(file, seconds);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** What the table of the set has against it; a refit is in none. */
function againstTable(name: string, { best, proved }: Course): string | null {
  if (isRefit(name)) return null;
  const status = proved ?? 'feasible';
  return contradiction(fileOf(name), { status, makespan: best, bound: 0 });
}

/** A short solve beforehand: what this engine's process has compiled is kept for those after it. */
const WARMING = 'j30/j3028_1.sm';

/** This engine beside general solvers on the same problems, one thread, a process a solve. */
export const peers: Bench = {
  name: 'peers',
  about: `this engine and ${SOLVERS.join(', ')} (npm minizinc, WebAssembly), ${SECONDS} s each after start-up and at most ${FLATTENING} s of flattening, a process a solve on one thread, one at a time; refits in steps of ${GRID} minutes for both; what this engine and a peer have proved, the peers after it are given ${LEAST} s or as long as either took, since more could change no comparison; what could not be flattened in time for HiGHS is not tried for COIN-BC, which is given the same model by the same library`,
  publicFiles: true,
  isLong: true,
  measures: [
    'tests/bench/peers/**/*.ts',
    'tests/oracle/**/*.{ts,mzn}',
    'tests/support/minizinc/*.ts',
    'libs/planning/**/*.ts',
    'seeds/generate/*.ts',
  ],
  longest: SECONDS + FLATTENING + 20,
  units: () => peerProblems().flatMap((name) => ['ours', ...SOLVERS].map((by) => `${name}@${by}`)),
  async prepare() {
    program = await builtProgram();
    await byUs(WARMING, SECONDS);
  },
  async run(unit, most, known): Promise<Row> {
    const [problem, solver] = unit.split('@');
    const limit = Math.min(SECONDS, most);
    const before = [...known.values()].filter((row) => row.problem === problem);
    const tooLarge = tooLargeFor(solver, before);
    if (tooLarge !== null) return { ...tooLarge, solver, untried: true };
    const enough = enoughFor(before);
    const seconds = Math.min(limit, solver === 'ours' ? Infinity : enough);
    const course =
      solver === 'ours'
        ? await byUs(problem, seconds)
        : await byPeer(problem, solver as Solver, seconds);
    return { problem, solver, limit, seconds, ...course, table: againstTable(problem, course) };
  },
  summarise: peersFigures,
  table: peersTable,
};
