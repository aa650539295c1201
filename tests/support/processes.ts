import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';

export interface Process {
  readonly pid: number;
  /** What it said so far, a line each. */
  readonly lines: readonly string[];
  /** Sends the signal and waits for the end: the exit code, or the name of the signal. */
  end(signal: NodeJS.Signals): Promise<number | string>;
}

const root = new URL('../../', import.meta.url).pathname;

type Environment = Readonly<Record<string, string>>;

/** The key of the services that are processes of their own. */
export const testSecretKey: Uint8Array = createHash('sha256').update('a key for tests').digest();

/** Of api and worker; notifications may go to a push service of the test. */
const shared: Environment = {
  SECRET_KEY: Buffer.from(testSecretKey).toString('base64'),
  PUSH_TO_LOCAL: '1',
};

/** A worker as in production; resolves once it takes jobs. */
export const startWorkerProcess = (databaseUrl: string, env: Environment = {}): Promise<Process> =>
  start(
    ['apps/worker/src/main.ts'],
    { ...shared, DATABASE_URL: databaseUrl, ...env },
    /^worker: ready$/,
  );

/** An api as in production, on a free port, with its address. */
export async function startApiProcess(
  databaseUrl: string,
  env: Environment = {},
): Promise<Process & { url: string }> {
  const program = ['--import', './apps/launch/ts-hook.mjs', 'apps/api/src/main.ts'];
  const address = /^api: (http:\S+)$/;
  const api = await start(
    program,
    {
      ...shared,
      DATABASE_URL: databaseUrl,
      PORT: '0',
      MAIL_FOLDER: join(tmpdir(), `curewright-mail-${String(process.pid)}`),
      PHOTO_FOLDER: join(tmpdir(), `curewright-photos-${String(process.pid)}`),
      ...env,
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
  return { pid: child.pid ?? -1, lines, end: (signal) => end(child, signal) };
}

async function end(child: ChildProcess, signal: NodeJS.Signals): Promise<number | string> {
  if (child.exitCode === null && child.signalCode === null) {
    child.kill(signal);
    await once(child, 'exit');
  }
  return child.exitCode ?? child.signalCode ?? '';
}
