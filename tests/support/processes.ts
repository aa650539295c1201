import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';

export interface Process {
  /** What it said so far, a line each. */
  readonly lines: readonly string[];
  /** Sends the signal and waits for the end: the exit code, or the name of the signal. */
  end(signal: NodeJS.Signals): Promise<number | string>;
}

const root = new URL('../../', import.meta.url).pathname;

/** A worker as in production; resolves once it takes jobs. */
export const startWorkerProcess = (databaseUrl: string): Promise<Process> =>
  start(['apps/worker/src/main.ts'], { DATABASE_URL: databaseUrl }, /^worker: ready$/);

/** An api as in production, on a free port, with its address. */
export async function startApiProcess(databaseUrl: string): Promise<Process & { url: string }> {
  const program = ['--import', './apps/launch/ts-hook.mjs', 'apps/api/src/main.ts'];
  const address = /^api: (http:\S+)$/;
  const api = await start(
    program,
    {
      DATABASE_URL: databaseUrl,
      PORT: '0',
      SECRET_KEY: createHash('sha256').update('a key for tests').digest('base64'),
      MAIL_FOLDER: join(tmpdir(), `curewright-mail-${String(process.pid)}`),
    },
    address,
  );
  const url = api.lines.map((line) => address.exec(line)?.[1]).find((found) => found !== undefined);
  return { ...api, url: url ?? '' };
}

async function start(
  args: readonly string[],
  env: Readonly<Record<string, string>>,
  sign: RegExp,
): Promise<Process> {
  const child = spawn(process.execPath, args, {
    cwd: root,
    env: { ...process.env, ...env },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const lines: string[] = [];
  const ready = Promise.withResolvers<undefined>();
  createInterface({ input: child.stdout }).on('line', (line) => {
    lines.push(line);
    if (sign.test(line)) ready.resolve(undefined);
  });
  const early = (code: number | null): void =>
    ready.reject(new Error(`${args.join(' ')} ended with ${String(code)}`));
  child.once('exit', early);
  await ready.promise;
  return { lines, end: (signal) => end(child, signal) };
}

async function end(child: ChildProcess, signal: NodeJS.Signals): Promise<number | string> {
  if (child.exitCode === null && child.signalCode === null) {
    child.kill(signal);
    await once(child, 'exit');
  }
  return child.exitCode ?? child.signalCode ?? '';
}
