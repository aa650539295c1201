import { getHeapStatistics } from 'node:v8';
import type { ResourceLimits } from 'node:worker_threads';
import type { Limits } from '#scheduling/search/portfolio/seat.ts';

const MB = 1024 * 1024;
/** Milliseconds between two measurements, and how many in a row have to be too high: rubbish goes in between. */
const PAUSE = 50;
const IN_A_ROW = 3;
/** Of what a thread may take, what its searchers may fill before the largest has to go. */
const FULL = 0.8;
/** Below that a thread could hardly load the program. */
export const LEAST_MB = 64;

/** How much memory this thread holds, buffers outside its heap included, against what it may. */
export interface MemoryWatch {
  /** Bytes held now. */
  held(): number;
  /** Whether it is time to let something go. Measures now and then only. */
  isShort(): boolean;
}

/** `most`: megabytes for this thread; null: no limit. */
export function memoryWatch(most: number | null): MemoryWatch {
  let measured = 0;
  let high = 0;
  const held = (): number => {
    const { used_heap_size, external_memory } = getHeapStatistics();
    return used_heap_size + external_memory;
  };
  return {
    held,
    isShort() {
      if (most === null) return false;
      const now = performance.now();
      if (now - measured < PAUSE) return false;
      measured = now;
      high = held() > FULL * most * MB ? high + 1 : 0;
      if (high < IN_A_ROW) return false;
      high = 0;
      return true;
    },
  };
}

/** Threads that a limit in megabytes has room for. */
export const threadsWithin = (memoryMB: number | null, threads: number): number =>
  memoryMB === null ? threads : Math.max(1, Math.min(threads, Math.floor(memoryMB / LEAST_MB)));

/** What each of so many threads may take; null: no limit. */
export const shareOf = (memoryMB: number | null, threads: number): number | null =>
  memoryMB === null ? null : Math.floor(memoryMB / threads);

/** Of a thread's options: what its heap may hold. */
export const limitsOf = (most: number | null): { resourceLimits?: ResourceLimits } =>
  most === null ? {} : { resourceLimits: { maxOldGenerationSizeMb: most } };

/** Whether a thread ended because its heap was full. */
export const isOutOfMemory = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY';

/** Half of all memory is for what the searchers learn, whatever the threads that they are on. */
export const clauseLimits = (allMB: number | null, searchers: number): Limits =>
  allMB === null ? {} : { clauseBytes: Math.floor((allMB * MB) / 2 / Math.max(1, searchers)) };
