import { type ChildProcess, spawn } from 'node:child_process';
import { closeSync, openSync } from 'node:fs';
import { readFile } from 'node:fs/promises';

export interface Program {
  readonly name: string;
  /** Of node. */
  readonly args: readonly string[];
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Begun anew at each start; what the program says goes there. */
  readonly logFile: string;
}

export interface Child {
  /** Resolves with how it ended: `code 1`, `signal SIGKILL`. */
  readonly ended: Promise<string>;
  readonly pid: number | undefined;
  /** SIGTERM, and after `patienceMs` SIGKILL; resolves when it is gone. */
  stop(patienceMs: number): Promise<void>;
}

const leash = new URL('leash.mjs', import.meta.url).href;

/** Starts a program of ours in a process group of its own, so that Ctrl-C reaches it from here only. */
export function startChild({ name, args, env, logFile }: Program, flags: 'w' | 'a' = 'w'): Child {
  const log = openSync(logFile, flags, 0o600);
  const child = spawn(process.execPath, ['--import', leash, ...args], {
    env: { ...env },
    detached: process.platform !== 'win32',
    stdio: ['ignore', log, log, 'ipc'],
  });
  closeSync(log);
  const ended = new Promise<string>((resolve) => {
    child.once('error', (error) => {
      resolve(`${name} cannot be run: ${error.message}`);
    });
    child.once('exit', (code, signal) => {
      resolve(signal === null ? `code ${String(code)}` : `signal ${signal}`);
    });
  });
  return { ended, pid: child.pid, stop: (patienceMs) => stopChild(child, ended, patienceMs) };
}

async function stopChild(
  child: ChildProcess,
  ended: Promise<string>,
  patienceMs: number,
): Promise<void> {
  child.kill('SIGTERM');
  const timer = setTimeout(() => child.kill('SIGKILL'), patienceMs);
  await ended;
  clearTimeout(timer);
}

/** The end of a program's log, for a message. */
export async function lastWords(logFile: string): Promise<string> {
  const text = await readFile(logFile, 'utf8').catch(() => '');
  const lines = text.trimEnd().split('\n').slice(-8);
  return lines.map((line) => `    ${line}`).join('\n');
}
