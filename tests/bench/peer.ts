import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { readBenchmark } from '../../apps/cli/solve/solveFile.ts';
import { knownOf } from '../reference/data.ts';
import { solveModel } from '../support/minizinc/solve.ts';
import { quantile, short, type Bench, type Row } from './bench.ts';
import { minizincModel } from './peer/model.ts';

const SECONDS = 10;
/** For starting a process and flattening beyond the limit, on a busy machine. */
const PATIENCE_MS = 60_000;

const ownProgram = new URL('./peer/own.ts', import.meta.url).pathname;
const run = promisify(execFile);

/** Every 40th j30 file and every 19th of ubo20 and ubo50: 20 files. */
function sample(): Map<string, string> {
  const files = new Map<string, string>();
  const take = (set: string, step: number, offset: number): void => {
    knownOf(set).forEach((known, k) => {
      if (k % step === offset) files.set(`${set}/${known.name}`, known.path);
    });
  };
  take('j30', 40, 21);
  take('rcpsp-max/ubo20', 19, 7);
  take('rcpsp-max/ubo50', 19, 7);
  return files;
}

interface Answer {
  readonly status: string;
  readonly makespan: number | null;
  readonly seconds: number;
}

async function byUs(path: string): Promise<Answer> {
  const { stdout } = await run(process.execPath, [ownProgram, path, String(SECONDS)], {
    timeout: 1000 * SECONDS + PATIENCE_MS,
    maxBuffer: 1 << 24,
  });
  return JSON.parse(stdout.trim().split('\n').at(-1) ?? '') as Answer;
}

async function byPeer(path: string): Promise<Answer & { proved: boolean }> {
  const { status, output, seconds } = await solveModel(
    { 'model.mzn': minizincModel(readBenchmark(path)) },
    { solver: 'chuffed', seconds: SECONDS, short: false },
  );
  return {
    status,
    makespan: output === null ? null : Number(output),
    seconds,
    proved: status === 'OPTIMAL_SOLUTION' || status === 'UNSATISFIABLE',
  };
}

let files = new Map<string, string>();

/** This engine beside Chuffed on the same machine in the same run. */
export const peer: Bench = {
  name: 'peer',
  about: `this engine and Chuffed (npm minizinc, WebAssembly) on the same files, ${SECONDS} s each, a process a solve`,
  publicFiles: true,
  units() {
    files = sample();
    return [...files.keys()];
  },
  async run(unit): Promise<Row> {
    const path = files.get(unit) ?? '';
    const own = await byUs(path);
    const other = await byPeer(path);
    const ownProved = own.status === 'optimal' || own.status === 'infeasible';
    return {
      ownSeconds: own.seconds,
      peerSeconds: other.seconds,
      ownMakespan: own.makespan,
      peerMakespan: other.makespan,
      ownProved,
      peerProved: other.proved,
      disagree: ownProved && other.proved && own.makespan !== other.makespan,
    };
  },
  summarise(rows) {
    const ratios = rows.map((row) => Number(row.peerSeconds) / Number(row.ownSeconds));
    const proofs = (who: 'ownProved' | 'peerProved'): number =>
      rows.filter((row) => row[who] === true).length;
    const worse = rows.filter(
      (r) =>
        r.ownMakespan !== r.peerMakespan &&
        Number(r.ownMakespan ?? Infinity) > Number(r.peerMakespan ?? Infinity),
    );
    const disagree = rows.filter((row) => row.disagree === true).length;
    return [
      { what: 'files', value: rows.length },
      { what: 'proved by this engine', value: proofs('ownProved') },
      { what: 'proved by the peer', value: proofs('peerProved') },
      {
        what: 'median seconds of this engine',
        value: short(
          quantile(
            rows.map((r) => Number(r.ownSeconds)),
            0.5,
          ),
        ),
      },
      {
        what: 'median seconds of the peer',
        value: short(
          quantile(
            rows.map((r) => Number(r.peerSeconds)),
            0.5,
          ),
        ),
      },
      { what: 'median of peer seconds / own seconds', value: short(quantile(ratios, 0.5)) },
      { what: 'least of peer seconds / own seconds', value: short(quantile(ratios, 0)) },
      { what: 'plans worse than the peer', value: worse.length },
      { what: 'proved answers that differ', value: disagree, target: '0', met: disagree === 0 },
    ];
  },
};
