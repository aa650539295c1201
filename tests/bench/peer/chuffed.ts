/**
 * One solve by Chuffed (G. Chu, 2011) as npm `minizinc` carries it: its browser worker, run in
 * this process under a small worker shim. One process a solve: a module that is used again has
 * given wrong answers. Words: MODEL-FILE MILLISECONDS. Prints one JSON line; `seconds` counts
 * from the loaded module to the end of the solve, flattening included.
 */
import { readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import vm from 'node:vm';

interface Message {
  readonly type: string;
  readonly status?: string;
  readonly output?: { readonly default?: string };
  readonly message?: string;
  readonly code?: number;
}

const [modelFile, milliseconds] = process.argv.slice(2);
const print = process.stdout.write.bind(process.stdout);
const exit = process.exit.bind(process);
const model = readFileSync(modelFile, 'utf8');
const workerFile = fileURLToPath(import.meta.resolve('minizinc/minizinc-worker.js'));

let onMessage: (event: { data: unknown }) => void = () => undefined;
let began = 0;
let status = 'UNKNOWN';
let makespan: number | null = null;
let failure: string | null = null;

function take(message: Message): void {
  switch (message.type) {
    case 'ready':
      began = performance.now();
      onMessage({ data: { jsonStream: true, files: { 'model.mzn': model }, args } });
      break;
    case 'solution':
      makespan = Number(message.output?.default);
      break;
    case 'status':
      status = message.status ?? status;
      break;
    case 'error':
      failure = message.message ?? 'error';
      break;
    case 'exit':
      print(
        `${JSON.stringify({ status, makespan, failure, seconds: (performance.now() - began) / 1000 })}\n`,
      );
      exit(0);
  }
}

const args = ['--solver', 'chuffed', '-f', '-i', '--time-limit', milliseconds, 'model.mzn'];
/** The worker asks for its files by web address; any will do, only the name counts here. */
const origin = 'https://worker.invalid/';
const beside = (name: string): string => join(dirname(workerFile), name);
Object.assign(globalThis, {
  WorkerGlobalScope: Object,
  self: globalThis,
  location: new URL(origin),
  addEventListener: (_: string, listener: typeof onMessage) => {
    onMessage = listener;
  },
  postMessage: take,
  fetch: (url: string) =>
    Promise.resolve(
      new Response(readFileSync(beside(basename(url))), {
        headers: { 'content-type': 'application/wasm' },
      }),
    ),
});
// The worker must take this for a browser.
Reflect.deleteProperty(globalThis, 'process');
vm.runInThisContext(readFileSync(workerFile, 'utf8'));
onMessage({ data: { wasmURL: `${origin}minizinc.wasm`, dataURL: `${origin}minizinc.data` } });
