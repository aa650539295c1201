import { Inject, Injectable, type OnApplicationShutdown } from '@nestjs/common';
import postgres from 'postgres';
import { type Config, configToken } from '../config/config.ts';

/** What the database tells of by itself (LISTEN), over one connection for the whole process. */
@Injectable()
export class Notices implements OnApplicationShutdown {
  #sql: postgres.Sql | undefined;

  constructor(@Inject(configToken) private readonly config: Config) {}

  /** `connected`: at each (re)connection, for what was told in between was not heard. */
  async listen(
    channel: string,
    heard: (payload: string) => void,
    connected: () => void,
  ): Promise<void> {
    this.#sql ??= postgres(this.config.databaseUrl, {
      max: 1,
      onnotice: () => undefined,
      connection: { application_name: 'curewright-notices' },
    });
    await this.#sql.listen(channel, heard, connected);
  }

  async onApplicationShutdown(): Promise<void> {
    await this.#sql?.end({ timeout: 1 });
  }
}
