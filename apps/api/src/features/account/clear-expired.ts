import {
  type BeforeApplicationShutdown,
  Inject,
  Injectable,
  Logger,
  type OnApplicationBootstrap,
} from '@nestjs/common';
import { purgeAccess } from '#persistence/access/lookups.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database } from '../../platform/database/database.ts';

const hourMs = 60 * 60 * 1000;

/**
 * Removes what is over: sessions, sign-ins half done, links. None of it opens anything by then; it
 * only should not pile up. Several processes may do it at once.
 */
@Injectable()
export class ClearExpired implements OnApplicationBootstrap, BeforeApplicationShutdown {
  readonly #log = new Logger('sessions');
  #timer: NodeJS.Timeout | undefined;
  #running: Promise<void> = Promise.resolve();

  constructor(
    private readonly database: Database,
    @Inject(configToken) private readonly config: Config,
  ) {}

  onApplicationBootstrap(): void {
    const clear = (): void => {
      this.#running = this.#clear();
    };
    clear();
    this.#timer = setInterval(clear, hourMs);
    this.#timer.unref();
  }

  async beforeApplicationShutdown(): Promise<void> {
    clearInterval(this.#timer);
    await this.#running;
  }

  async #clear(): Promise<void> {
    try {
      await this.database.lookUp((db) => purgeAccess(db, this.config.sessionIdleMinutes));
    } catch (error) {
      this.#log.warn(
        `what is over was not removed: ${error instanceof Error ? error.message : String(error)}`,
      );
    }
  }
}
