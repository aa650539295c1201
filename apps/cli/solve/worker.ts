import { parentPort } from 'node:worker_threads';
import { DomainError } from '#kernel/error.ts';
import type { Limit } from './arguments.ts';
import { solveFile, type Outcome } from './solveFile.ts';

export interface Order {
  readonly path: string;
  readonly limit: Limit;
  readonly seed: number;
}

export type Answer =
  | { readonly outcome: Outcome }
  /** The file could not be read: why, and what to do. */
  | { readonly refusal: string };

parentPort?.on('message', (order: Order) => {
  parentPort?.postMessage(answer(order));
});

function answer({ path, limit, seed }: Order): Answer {
  try {
    return { outcome: solveFile(path, limit, seed).outcome };
  } catch (error) {
    if (error instanceof DomainError) return { refusal: `${error.message}. ${error.cure}` };
    if (error instanceof Error && 'syscall' in error) {
      return { refusal: `${error.message}. Name a file that can be read.` };
    }
    throw error; // a defect: let the command fail loudly
  }
}
