import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';

export interface WorkerProcess {
  readonly process: ChildProcess;
  /** What it said so far, a line each. */
  readonly lines: readonly string[];
  /** The exit code, or the name of the signal it died by. */
  end(signal: NodeJS.Signals): Promise<number | string>;
}

const root = new URL('../../', import.meta.url).pathname;

/** A worker of its own process, as in production; resolves once it takes jobs. */
export async function startWorkerProcess(
  databaseUrl: string,
  env: Readonly<Record<string, string>> = {},
): Promise<WorkerProcess> {
  const child = spawn(process.execPath, ['apps/worker/src/main.ts'], {
    cwd: root,
    env: { ...process.env, DATABASE_URL: databaseUrl, ...env },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const lines: string[] = [];
  const ready = new Promise<void>((resolve, reject) => {
    createInterface({ input: child.stdout }).on('line', (line) => {
      lines.push(line);
      if (line === 'worker: ready') resolve();
    });
    child.once('exit', (code) => reject(new Error(`the worker ended with ${String(code)}`)));
  });
  await ready;
  return {
    process: child,
    lines,
    end: async (signal) => {
      if (child.exitCode !== null) return child.exitCode;
      if (child.signalCode !== null) return child.signalCode;
      child.kill(signal);
      const [code, by] = (await once(child, 'exit')) as [number | null, NodeJS.Signals | null];
      return code ?? by ?? '';
    },
  };
}
