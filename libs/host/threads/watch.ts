import { setTimeout as sleep } from 'node:timers/promises';

/**
 * Memory that all threads of a run share: whether to stop, by when, and from which searcher on the
 * rest of the round is of no use any more. Times are milliseconds of the epoch.
 */
export interface Signals {
  readonly cells: Int32Array<SharedArrayBuffer>;
  readonly deadline: Float64Array<SharedArrayBuffer>;
}

const STOP = 0;
const CUT = 1;
const SHORT = 2;
const NOBODY = 0x7fffffff;

/** Signals of a run that ends at `deadline` at the latest; null: no such moment. */
export function newSignals(deadline: number | null): Signals {
  const signals = {
    cells: new Int32Array(new SharedArrayBuffer(12)),
    deadline: new Float64Array(new SharedArrayBuffer(8)),
  };
  signals.deadline[0] = deadline ?? Infinity;
  Atomics.store(signals.cells, CUT, NOBODY);
  return signals;
}

export const askToStop = ({ cells }: Signals): void => {
  Atomics.store(cells, STOP, 1);
};

export const mustStop = ({ cells, deadline }: Signals): boolean =>
  Atomics.load(cells, STOP) !== 0 || Date.now() >= deadline[0];

/** Milliseconds between two looks at the signals while others work, and what they then get to answer. */
const LOOK = 4;
const LATE = 12;

/** Settles once the run has to end and those at work have had time to say what they have; rejects when `over`. */
export async function overdue(signals: Signals, over: AbortSignal): Promise<null> {
  const options = { signal: over };
  while (!mustStop(signals)) await sleep(LOOK, undefined, options);
  return sleep(LATE, null, options);
}

/** The searcher has decided the problem: what comes after it in this round does not count. */
export function cutAfter({ cells }: Signals, seat: number): void {
  for (;;) {
    const before = Atomics.load(cells, CUT);
    if (before <= seat || Atomics.compareExchange(cells, CUT, before, seat) === before) return;
  }
}

export const isCut = ({ cells }: Signals, seat: number): boolean => Atomics.load(cells, CUT) < seat;

/** Some searcher had to go for want of memory. */
export const tellShortOfMemory = ({ cells }: Signals): void => {
  Atomics.store(cells, SHORT, 1);
};

export const isShortOfMemory = ({ cells }: Signals): boolean => Atomics.load(cells, SHORT) !== 0;
