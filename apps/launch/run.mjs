import { spawn } from 'node:child_process';
import { delimiter, join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** Gap under which two equal signals are one: the terminal and npm both pass a Ctrl-C on. */
const echoMs = 1000;

/** The Node of the `node` dependency, whatever Node the user has. */
export function pinnedNode(root) {
  return join(
    root,
    'node_modules',
    'node',
    'bin',
    process.platform === 'win32' ? 'node.exe' : 'node',
  );
}

/**
 * Runs the program and ends as it ends: same exit code, same signal. It sits in a process group
 * of its own, so that each signal reaches it once, from here, and it can close in its own order.
 */
export async function runProgram(root, { file, here = false, decorators = false }, args) {
  const hook = pathToFileURL(join(root, 'apps', 'launch', 'ts-hook.mjs')).href;
  const options = decorators ? ['--enable-source-maps', '--import', hook] : [];
  const child = spawn(pinnedNode(root), [...options, join(root, file), ...args], {
    cwd: here ? (process.env.INIT_CWD ?? process.cwd()) : root,
    detached: process.platform !== 'win32',
    env: {
      ...process.env,
      PATH: [join(root, 'node_modules', '.bin'), process.env.PATH].join(delimiter),
      // Compiled code is kept between starts: a quarter of the api's start is saved.
      NODE_COMPILE_CACHE:
        process.env.NODE_COMPILE_CACHE ?? join(root, 'node_modules', '.cache', 'compiled'),
    },
    stdio: 'inherit',
  });
  const release = passSignals(child);
  const parent = process.ppid;
  // A shell or npm that is killed outright passes nothing on.
  const watch = setInterval(() => process.ppid === parent || child.kill('SIGTERM'), echoMs);
  const [code, signal] = await new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('exit', (...end) => resolve(end));
  });
  clearInterval(watch);
  release();
  if (signal === null) process.exit(code);
  process.kill(process.pid, signal);
}

function passSignals(child) {
  const last = new Map();
  const pass = (signal) => {
    const now = Date.now();
    if (now - (last.get(signal) ?? 0) < echoMs) return;
    last.set(signal, now);
    child.kill(signal);
  };
  const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
  for (const signal of signals) process.on(signal, pass);
  return () => {
    for (const signal of signals) process.off(signal, pass);
  };
}
