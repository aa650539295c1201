import { Worker } from 'node:worker_threads';
import type { Plan } from '#scheduling/model/plan.ts';
import type { Exchange } from '#scheduling/search/portfolio/board.ts';
import { roundAfter, type Part } from '#scheduling/search/portfolio/rounds.ts';
import type { Seat } from '#scheduling/search/portfolio/seat.ts';
import { isOutOfMemory, limitsOf } from './memory.ts';
import type { Finding, LaneOrder, RoundOrder } from './messages.ts';

/** A further thread, started when first asked for. */
export interface Lane {
  /** Starts the thread, so that it is up when it is needed. */
  start(): void;
  /** Null once its memory is full: its searchers are gone. Rejects if the thread fails otherwise. */
  round(parts: readonly Part[], exchange: Exchange): Promise<readonly Finding[] | null>;
  end(): void;
}

/** Rounds that the first thread does alone, before others are started: an easy problem needs none. */
export const ALONE = roundAfter(20_000);

/**
 * The thread of each searcher: the first for those that begin while it is alone, and each of the
 * others, the largest share first, goes where least is to be done. Has no influence on what is
 * found.
 */
export function placesOf(seats: readonly Seat[], threads: number): number[] {
  const load = new Float64Array(Math.max(1, Math.min(threads, seats.length)));
  const places = seats.map(() => 0);
  const order = [...seats.keys()];
  const isEarly = (seat: number): boolean => seats[seat].from <= ALONE;
  order.sort((a, b) => Number(isEarly(b)) - Number(isEarly(a)) || seats[b].share - seats[a].share);
  for (const seat of order) {
    const place = isEarly(seat) ? 0 : load.indexOf(Math.min(...load));
    places[seat] = place;
    load[place] += seats[seat].share;
  }
  return places;
}

interface Waiting {
  resolve(findings: readonly Finding[] | null): void;
  reject(error: Error): void;
}

const same = (a: readonly Plan[], b: readonly Plan[]): boolean =>
  a.length === b.length && a.every((plan, k) => plan === b[k]);

export function laneOf(order: LaneOrder): Lane {
  let worker: Worker | null = null;
  let failure: Error | null = null;
  let full = false;
  let waiting: Waiting | null = null;
  let sent: Exchange | null = null;

  const fail = (error: Error): void => {
    if (isOutOfMemory(error)) full = true;
    failure ??= error;
    if (full) waiting?.resolve(null);
    else waiting?.reject(failure);
  };

  const start = (): Worker => {
    if (worker !== null) return worker;
    worker = new Worker(new URL('./entry.ts', import.meta.url), {
      workerData: order,
      execArgv: [],
      ...limitsOf(order.memoryMB),
    });
    worker.on('message', (findings: readonly Finding[]) => waiting?.resolve(findings));
    worker.on('error', fail);
    worker.on('exit', (code) => {
      fail(new Error(`A thread of the search ended with code ${String(code)}`));
    });
    return worker;
  };

  return {
    start,
    round(parts, exchange) {
      const { plan, leading, bounds } = exchange;
      const message: RoundOrder = {
        parts,
        plan: plan === sent?.plan ? null : plan,
        leading: sent !== null && same(leading, sent.leading) ? null : leading,
        bounds,
      };
      sent = exchange;
      return new Promise<readonly Finding[] | null>((resolve, reject) => {
        waiting = { resolve, reject };
        if (failure === null) start().postMessage(message);
        else fail(failure);
      });
    },
    end() {
      waiting = null;
      void worker?.terminate();
    },
  };
}
