import { createClient, inYard, service, type ClientOptions, type Transaction } from '../client.ts';
import type { PrismaClient } from '../generated/client.ts';
import { follow, isFresh } from './advance.ts';
import { readLog } from './log.ts';
import { everything, lastEventId, loadState, type YardState } from './yard-state.ts';

export interface YardStatesOptions extends Omit<ClientOptions, 'connections'> {
  /** Yards that are kept at most; default 50. */
  readonly yards?: number;
  /** Tasks of all that are kept at most, the last yard's aside; default 60,000. */
  readonly tasks?: number;
}

/** A large yard is read in seconds; that it is needs no second try. */
const loadMs = 60_000;
/** So often is a yard read anew whose records change while it is read. */
const mostTries = 5;

/**
 * The present state of yards, kept in memory and brought up to date by what their logs say since:
 * reports of work are put to it as they are, whatever else happened has the part of it read anew.
 * One process may keep many; each is right by itself, for it is the log that tells them apart.
 *
 * A yard is read over connections of its own (two), in one snapshot: never in the caller's
 * transaction, which may see what will not be, and never over the caller's pool, all of whose
 * connections may be waiting for this.
 */
export class YardStates {
  readonly #prisma: PrismaClient;
  readonly #most: { readonly yards: number; readonly tasks: number };
  /** The most recently asked for last. */
  readonly #kept = new Map<string, YardState>();
  readonly #loading = new Map<string, Promise<YardState>>();

  constructor(databaseUrl: string, options: YardStatesOptions = {}) {
    const { yards = 50, tasks = 60_000, ...timeouts } = options;
    this.#prisma = createClient(databaseUrl, { ...timeouts, connections: 2 });
    this.#most = { yards, tasks };
  }

  /**
   * The yard as it is committed by now, with the events that `tx` itself has appended; what `tx`
   * has written without an event is not in it. While `tx` holds `lockWork` nobody else changes
   * work, so that it stays so. `tx` sees the whole yard and is READ COMMITTED: to one with a
   * snapshot of its own the state may be ahead. Throws `record.missing`.
   */
  async at(tx: Transaction, yardId: string): Promise<YardState> {
    for (let tries = 0; tries < mostTries; tries += 1) {
      const known = this.#kept.get(yardId) ?? (await this.#load(yardId));
      const log = await readLog(tx, yardId, known.eventId);
      const { state, stale } = follow(known, log);
      if (log.some(({ own }) => own)) return isFresh(stale) ? state : asSeenBy(tx, yardId);
      if (isFresh(stale)) return this.#keep(yardId, state);
      await this.#load(yardId);
    }
    return asSeenBy(tx, yardId);
  }

  /** The next to ask reads the yard anew. */
  forget(yardId: string): void {
    this.#kept.delete(yardId);
  }

  async close(): Promise<void> {
    await this.#prisma.$disconnect();
  }

  /** Once for all who wait for it. */
  #load(yardId: string): Promise<YardState> {
    const before = this.#loading.get(yardId);
    if (before !== undefined) return before;
    const known = this.#kept.get(yardId) ?? null;
    const load = inYard(this.#prisma, service(yardId), (tx) => loadAfter(tx, yardId, known), {
      isolationLevel: 'RepeatableRead',
      timeout: loadMs,
    })
      .then((state) => this.#keep(yardId, state))
      .finally(() => this.#loading.delete(yardId));
    this.#loading.set(yardId, load);
    return load;
  }

  /** The later of two states of a yard is the one to keep; of equal ones the first, for what hangs on it. */
  #keep(yardId: string, state: YardState): YardState {
    const known = this.#kept.get(yardId);
    this.#kept.delete(yardId);
    const isNewer = known === undefined || known.eventId < state.eventId;
    this.#kept.set(yardId, isNewer ? state : known);
    this.#shrink();
    return known?.eventId === state.eventId ? known : state;
  }

  #shrink(): void {
    const sizes = [...this.#kept].map(([yardId, { workload }]) => ({
      yardId,
      tasks: workload.tasks.length,
    }));
    let sum = sizes.reduce((total, { tasks }) => total + tasks, 0);
    for (const { yardId, tasks } of sizes.slice(0, -1)) {
      if (this.#kept.size <= this.#most.yards && sum <= this.#most.tasks) return;
      this.#kept.delete(yardId);
      sum -= tasks;
    }
  }
}

/** In one snapshot; what the log tells of what is known is not read again. */
async function loadAfter(
  tx: Transaction,
  yardId: string,
  known: YardState | null,
): Promise<YardState> {
  if (known === null) return loadState(tx, yardId, null, everything);
  const { state, stale } = follow(known, await readLog(tx, yardId, known.eventId));
  return loadState(tx, yardId, state, stale);
}

/**
 * As `tx` sees it, with what it has not committed: not to be kept. Read until nothing was
 * committed meanwhile, or often enough.
 */
async function asSeenBy(tx: Transaction, yardId: string): Promise<YardState> {
  for (let tries = 1; ; tries += 1) {
    const state = await loadState(tx, yardId, null, everything);
    if (tries === mostTries || (await lastEventId(tx, yardId)) === state.eventId) return state;
  }
}
