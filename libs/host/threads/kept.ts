import { Worker } from 'node:worker_threads';
import { limitsOf, shareOf, threadsWithin } from './memory.ts';
import type { KeptOrder } from './messages.ts';

/**
 * A first thread that stands by, for runs that somebody waits for: its program is loaded, and what it
 * led before has made it quick. One run has it at a time; others start threads of their own.
 */
export interface KeptThread {
  /** Null while another run has it, and where it is of other limits. */
  take(memoryMB: number | null): Worker | null;
  /** After a run; unless that `isOver`, with its result told, the thread is no more, and another stands by. */
  giveBack(worker: Worker, isOver: boolean): void;
  end(): Promise<void>;
}

/** For runs of so many megabytes (null: no limit) and threads, which are those of `RunOptions`. */
export function keepThread(allMB: number | null, threads: number): KeptThread {
  const memoryMB = shareOf(allMB, threadsWithin(allMB, threads));
  const order: KeptOrder = { role: 'kept' };
  let idle: Worker | null = null;
  let out = false;
  let ended = false;

  const start = (): Worker => {
    const worker = new Worker(new URL('./entry.ts', import.meta.url), {
      workerData: order,
      execArgv: [],
      ...limitsOf(memoryMB),
    });
    // A run that has it hears of these itself.
    worker.on('error', () => undefined);
    worker.once('exit', () => {
      if (idle === worker) idle = null;
    });
    worker.unref();
    return worker;
  };

  idle = start();
  return {
    take(most) {
      if (ended || out || most !== memoryMB) return null;
      const worker = idle ?? start();
      idle = null;
      out = true;
      worker.ref();
      return worker;
    },
    giveBack(worker, isOver) {
      out = false;
      if (!isOver || ended) void worker.terminate();
      if (ended) return;
      worker.unref();
      idle = isOver ? worker : start();
    },
    async end() {
      ended = true;
      await idle?.terminate();
    },
  };
}
