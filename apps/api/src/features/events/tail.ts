import { setTimeout as sleep } from 'node:timers/promises';
import type { LoggedEvent } from './logged-event.ts';

/** Up to `limit` events of the yard with an id above `after`, ascending. */
export type ReadEvents = (after: bigint, limit: number) => Promise<LoggedEvent[]>;

const pageSize = 200;
/** What a process keeps of a yard's newest events, so that each is read once for all followers. */
const kept = 500;
const retryMs = 1_000;

/**
 * The newest end of one yard's log, read once for everybody in this process. Ids of a yard become
 * visible in ascending order (the log's lock sees to it), so "above the last id" misses nothing.
 */
export class YardTail {
  readonly #read: ReadEvents;
  readonly #onError: (error: unknown) => void;
  /** All of the yard's events above `#from` up to `#to`, ascending. */
  #recent: LoggedEvent[] = [];
  #from: bigint;
  #to: bigint;
  #news = Promise.withResolvers<undefined>();
  #isStale = false;
  #isReading = false;

  constructor(from: bigint, read: ReadEvents, onError: (error: unknown) => void) {
    this.#from = from;
    this.#to = from;
    this.#read = read;
    this.#onError = onError;
  }

  /** There may be something new. */
  nudge(): void {
    this.#isStale = true;
    if (!this.#isReading) void this.#catchUp();
  }

  /** Events above `id`, as soon as there are any; none only once `left` is aborted. */
  async after(id: bigint, left: AbortSignal): Promise<readonly LoggedEvent[]> {
    while (!left.aborted) {
      const news = this.#news.promise;
      const found =
        id < this.#from
          ? await this.#read(id, pageSize)
          : this.#recent.filter((event) => event.id > id);
      if (found.length > 0) return found;
      await untilAborted(news, left);
    }
    return [];
  }

  async #catchUp(): Promise<void> {
    this.#isReading = true;
    while (this.#isStale) {
      this.#isStale = false;
      try {
        await this.#readOn();
      } catch (error) {
        this.#onError(error);
        await sleep(retryMs);
        this.#isStale = true;
      }
    }
    this.#isReading = false;
  }

  async #readOn(): Promise<void> {
    for (;;) {
      const events = await this.#read(this.#to, pageSize);
      const last = events.at(-1);
      if (last === undefined) return;
      this.#recent.push(...events);
      this.#to = last.id;
      const surplus = this.#recent.splice(0, Math.max(0, this.#recent.length - kept));
      this.#from = surplus.at(-1)?.id ?? this.#from;
      this.#news.resolve(undefined);
      this.#news = Promise.withResolvers<undefined>();
      if (events.length < pageSize) return;
    }
  }
}

function untilAborted(news: Promise<unknown>, left: AbortSignal): Promise<unknown> {
  if (left.aborted) return Promise.resolve();
  const leaving = Promise.withResolvers<undefined>();
  const leave = (): void => leaving.resolve(undefined);
  left.addEventListener('abort', leave, { once: true });
  return Promise.race([news, leaving.promise]).finally(() =>
    left.removeEventListener('abort', leave),
  );
}
