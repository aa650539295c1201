import { type RateLimiterPostgres, RateLimiterRes } from 'rate-limiter-flexible';
import type { LimitStore } from './limit-store.ts';
import { Throttled } from './throttled.ts';

const minute = 60;
/** In which `points` attempts are free, s. */
const span = 15 * minute;
const firstWait = 30;
/** Whoever is shut out by a stranger's guesses is so for no longer than this. */
const longestWait = 15 * minute;
/** Quiet for so long, the next wait is the first again. */
const memory = 24 * 60 * minute;

/**
 * So many attempts, then a wait, which doubles each time it is reached again: 30 s, 1 min, 2 min
 * to 15 min. That leaves a guesser some hundreds of attempts a day (OWASP Authentication Cheat
 * Sheet, Account Lockout: an exponential lockout rather than one that stays).
 */
export class BackOff {
  readonly #tries: RateLimiterPostgres;
  readonly #waits: RateLimiterPostgres;
  readonly #points: number;

  constructor(store: LimitStore, name: string, points: number) {
    this.#points = points;
    this.#tries = store.counter(`${name}-tries`, points, span);
    this.#waits = store.counter(`${name}-waits`, Number.MAX_SAFE_INTEGER, memory);
  }

  /** Counts one attempt, before it is judged: many at once are no way around. Throws `access.often`. */
  async count(key: string, what: string): Promise<void> {
    try {
      await this.#tries.consume(key);
    } catch (refused) {
      if (!(refused instanceof RateLimiterRes)) throw refused;
      // Only the first one too many begins a wait; the others find it begun.
      const isFirst = refused.consumedPoints === this.#points + 1;
      throw new Throttled(what, isFirst ? await this.#begin(key) : refused.msBeforeNext);
    }
  }

  /** Nothing of it counts any more. */
  async forget(key: string): Promise<void> {
    await Promise.all([this.#tries.delete(key), this.#waits.delete(key)]);
  }

  /** The last attempt was none. */
  async giveBack(key: string): Promise<void> {
    await this.#tries.reward(key);
  }

  async #begin(key: string): Promise<number> {
    const { consumedPoints: times } = await this.#waits.penalty(key);
    const seconds = Math.min(firstWait * 2 ** (times - 1), longestWait);
    await this.#tries.block(key, seconds);
    return seconds * 1000;
  }
}
