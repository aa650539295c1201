import { spawn, type ChildProcess } from 'node:child_process';
import { createServer } from 'node:net';
import { fileURLToPath } from 'node:url';

export interface Started {
  readonly pid: number;
  readonly port: number;
  /** What it has printed so far, both streams. */
  text(): string;
  /** Resolves with all it printed once it says it is up; rejects when it ends before. */
  readonly up: Promise<string>;
  /** Sends the signal and waits for the end: exit code and how long it took, ms. */
  end(signal: NodeJS.Signals): Promise<{ code: number | null; ms: number }>;
  /** Ends whatever is left of it; for the end of a test that failed half-way. */
  kill(): Promise<void>;
}

const root = fileURLToPath(new URL('../../', import.meta.url));

/** The program of `npm start` as its bootstrap runs it, without the bootstrap's set-up. */
export function npmStart(
  env: Readonly<Record<string, string>>,
  args: readonly string[] = [],
): Started {
  const child = spawn(
    process.execPath,
    [
      '--enable-source-maps',
      '--import',
      './apps/launch/ts-hook.mjs',
      'apps/launch/start.ts',
      ...args,
    ],
    { cwd: root, env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  let text = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8').on('data', (said: string) => (text += said));
  }
  const ended = new Promise<number | null>((resolve) => {
    child.once('close', (code) => {
      resolve(code);
    });
  });
  return {
    pid: child.pid ?? -1,
    port: Number(env.PORT),
    text: () => text,
    up: untilSaid(child, () => text, 'Ctrl-C stops it'),
    end: async (signal) => {
      const begun = performance.now();
      child.kill(signal);
      return { code: await ended, ms: performance.now() - begun };
    },
    kill: async () => {
      if (child.exitCode === null && child.signalCode === null) child.kill('SIGTERM');
      await ended;
    },
  };
}

function untilSaid(child: ChildProcess, text: () => string, words: string): Promise<string> {
  return new Promise((resolve, reject) => {
    child.stdout?.on('data', () => {
      if (text().includes(words)) resolve(text());
    });
    child.once('close', (code) => {
      reject(new Error(`it ended with ${String(code)} before it was up:\n${text()}`));
    });
  });
}

/** From which systems take none for connections: one of those may be taken before it is listened to. */
const [lowest, ports] = [20_000, 12_000];

/** A port that nobody uses at the moment. */
export async function freePort(): Promise<number> {
  for (;;) {
    const port = lowest + Math.floor(Math.random() * ports);
    if (await isFree(port)) return port;
  }
}

function isFree(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const probe = createServer()
      .once('error', () => {
        resolve(false);
      })
      .listen(port, '127.0.0.1', () => {
        probe.close(() => {
          resolve(true);
        });
      });
  });
}
