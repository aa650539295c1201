import { parentPort } from 'node:worker_threads';
import { DomainError } from '#kernel/error.ts';
import type { Limit } from './arguments.ts';
import { solveFileWith, type Means, type Outcome } from './solveFile.ts';

export interface Order extends Means {
  readonly path: string;
  readonly limit: Limit;
  readonly seed: number;
}

export type Answer =
  | { readonly outcome: Outcome }
  /** The file could not be read: why, and what to do. */
  | { readonly refusal: string };

parentPort?.on('message', (order: Order) => {
  void answer(order).then((one) => parentPort?.postMessage(one));
});

async function answer({ path, limit, seed, ...means }: Order): Promise<Answer> {
  try {
    return { outcome: (await solveFileWith(path, limit, seed, means)).outcome };
  } catch (error) {
    if (error instanceof DomainError) return { refusal: `${error.message}. ${error.cure}` };
    if (error instanceof Error && 'syscall' in error) {
      return { refusal: `${error.message}. Name a file that can be read.` };
    }
    throw error; // a defect: let the command fail loudly
  }
}
