/**
 * One solve by a solver that npm `minizinc` carries: its browser worker, run in this process under
 * a small worker shim. One process a solve: a module that is used again has given wrong answers.
 * Words: SOLVER MILLISECONDS MILLISECONDS FILE…: the limits of flattening and solving together and
 * of solving alone, then the model, what it includes and its data. Prints JSON lines (`Event` of
 * events.ts).
 */
import { readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import vm from 'node:vm';
import type { Event } from './events.ts';

interface Message {
  readonly type: string;
  readonly status?: string;
  readonly output?: { readonly default?: string };
  readonly message?: string;
  readonly value?: string;
  readonly statistics?: Readonly<Record<string, unknown>>;
}

/** What is needed of the global of this name. */
interface Wasm {
  instantiate(bytes: Buffer, imports: object): Promise<unknown>;
  instantiateStreaming: (response: Promise<{ bytes: Buffer }>, imports: object) => Promise<unknown>;
}

const [solver, milliseconds, alone, ...paths] = process.argv.slice(2);
const print = process.stdout.write.bind(process.stdout);
const exit = process.exit.bind(process);
const files = Object.fromEntries(paths.map((path) => [basename(path), readFileSync(path, 'utf8')]));
const model = basename(paths[0]);
const data = Object.keys(files).filter((name) => name.endsWith('.dzn'));
const limits = ['--time-limit', milliseconds, '--solver-time-limit', alone];
const args = ['--solver', solver, '-i', '--statistics', ...limits, model, ...data];
// Chuffed alone may leave the order of its decisions to what it learns.
if (solver === 'chuffed') args.unshift('-f');
const workerFile = fileURLToPath(import.meta.resolve('minizinc/minizinc-worker.js'));

let onMessage: (event: { data: unknown }) => void = () => undefined;

const say = (event: Event): void => {
  print(`${JSON.stringify(event)}\n`);
};

function take(message: Message): void {
  const at = performance.now() / 1000;
  switch (message.type) {
    case 'ready':
      say({ kind: 'ready', at });
      onMessage({ data: { jsonStream: true, files, args } });
      break;
    case 'statistics':
      if (message.statistics?.flatTime !== undefined) say({ kind: 'flat', at });
      break;
    case 'solution':
      say({ kind: 'solution', at, output: message.output?.default ?? '' });
      break;
    case 'status':
      say({ kind: 'status', at, status: message.status ?? 'UNKNOWN' });
      break;
    case 'stdout':
      // What Chuffed refutes before it searches is said in plain words.
      if (message.value?.includes('=====UNSATISFIABLE=====') === true)
        say({ kind: 'status', at, status: 'UNSATISFIABLE' });
      break;
    case 'error':
      say({ kind: 'failure', at, message: message.message ?? 'error' });
      break;
    case 'exit':
      say({ kind: 'exit', at });
      exit(0);
  }
}

/** The worker asks for its files by web address; any will do, only the name counts here. */
const origin = 'https://worker.invalid/';
const bytesOf = (url: string): Buffer => readFileSync(join(dirname(workerFile), basename(url)));
Object.assign(globalThis, {
  WorkerGlobalScope: Object,
  self: globalThis,
  location: new URL(origin),
  addEventListener: (_: string, listener: typeof onMessage) => {
    onMessage = listener;
  },
  postMessage: take,
  // As much of a response as is asked for: a real one copies 18 MB through streams.
  fetch: (url: string) => {
    const bytes = bytesOf(url);
    return Promise.resolve({
      ok: true,
      url,
      headers: { get: () => String(bytes.length) },
      body: { getReader: () => readerOf(bytes) },
      arrayBuffer: () => Promise.resolve(bytes),
      bytes,
    });
  },
});
const wasm = Reflect.get(globalThis, 'WebAssembly') as Wasm;
wasm.instantiateStreaming = async (response, imports) =>
  wasm.instantiate((await response).bytes, imports);

/** The bytes in one piece. */
function readerOf(bytes: Buffer): { read: () => Promise<{ done: boolean; value?: Buffer }> } {
  let given = false;
  return {
    read() {
      const next = given ? { done: true } : { done: false, value: bytes };
      given = true;
      return Promise.resolve(next);
    },
  };
}

// The worker must take this for a browser.
Reflect.deleteProperty(globalThis, 'process');
vm.runInThisContext(readFileSync(workerFile, 'utf8'));
onMessage({ data: { wasmURL: `${origin}minizinc.wasm`, dataURL: `${origin}minizinc.data` } });
