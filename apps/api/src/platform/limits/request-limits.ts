import { createHash } from 'node:crypto';
import { RateLimiterMemory, RateLimiterRes } from 'rate-limiter-flexible';
import type { Config } from '../config/config.ts';
import { sourceOf } from './source.ts';
import { Throttled } from './throttled.ts';

/** Who is counted: where a request comes from, and what it shows to say who it is from. */
export interface Source {
  readonly address: string;
  readonly token: string | undefined;
}

/** People of one yard sit behind one address. */
const addressShare = 5;

/**
 * How often the service may be asked, in a minute: by a session, a program key, or an address that
 * shows neither. All that comes from an address is counted as well, whatever it shows, for tokens
 * can be made up. Each process counts by itself: that only protects it, and no secret.
 */
export class RequestLimits {
  readonly #callers: RateLimiterMemory;
  readonly #addresses: RateLimiterMemory;

  constructor({ requestsPerMinute }: Pick<Config, 'requestsPerMinute'>) {
    const minute = { duration: 60 };
    this.#callers = new RateLimiterMemory({ ...minute, points: requestsPerMinute });
    this.#addresses = new RateLimiterMemory({
      ...minute,
      points: requestsPerMinute * addressShare,
    });
  }

  /** Counts requests. Throws `access.often`. */
  async count({ address, token }: Source, requests = 1): Promise<void> {
    const place = sourceOf(address);
    const caller =
      token === undefined ? place : createHash('sha256').update(token).digest('base64');
    try {
      await this.#addresses.consume(place, requests);
      await this.#callers.consume(caller, requests);
    } catch (refused) {
      if (!(refused instanceof RateLimiterRes)) throw refused;
      throw new Throttled('requests in a minute', refused.msBeforeNext);
    }
  }
}
