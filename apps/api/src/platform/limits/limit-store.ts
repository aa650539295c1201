import { createHmac } from 'node:crypto';
import { Inject, Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { Pool } from 'pg';
import { RateLimiterMemory, RateLimiterPostgres } from 'rate-limiter-flexible';
import { lasting } from '#persistence/connection.ts';
import { type Config, configToken } from '../config/config.ts';

/** Counting must never keep anybody waiting for long. */
const patienceMs = 2_000;

/**
 * Counts that all processes of the service share, in the table `rate_limit`, over two connections
 * of its own: a busy service counts as ever. While the store does not answer each process counts
 * by itself, to the same limits: nobody guesses for free, and nobody is locked out by it.
 */
@Injectable()
export class LimitStore implements OnApplicationShutdown {
  readonly #pool: Pool;
  readonly #secretKey: Uint8Array;

  constructor(@Inject(configToken) { databaseUrl, secretKey }: Config) {
    this.#secretKey = secretKey;
    this.#pool = new Pool({
      ...lasting,
      connectionString: databaseUrl,
      max: 2,
      connectionTimeoutMillis: patienceMs,
      statement_timeout: patienceMs,
      query_timeout: 2 * patienceMs,
    });
    // A connection that breaks while idle is replaced at the next count.
    this.#pool.on('error', () => undefined);
  }

  /** `points` within `seconds`, counted for each key under this name. */
  counter(name: string, points: number, seconds: number): RateLimiterPostgres {
    const limit = { keyPrefix: name, points, duration: seconds };
    return new RateLimiterPostgres({
      ...limit,
      storeClient: this.#pool,
      storeType: 'pool',
      tableName: 'rate_limit',
      tableCreated: true,
      insuranceLimiter: new RateLimiterMemory(limit),
    });
  }

  /** A key that tells whoever reads the table neither addresses nor e-mails. */
  keyOf(...parts: readonly string[]): string {
    const mac = createHmac('sha256', this.#secretKey).update('limit').update(JSON.stringify(parts));
    return mac.digest('base64url').slice(0, 22);
  }

  async onApplicationShutdown(): Promise<void> {
    await this.#pool.end();
  }
}
