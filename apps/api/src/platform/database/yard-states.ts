import { Inject, Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { YardStates as Mirror } from '#persistence/live/yard-states.ts';
import { type Config, configToken } from '../config/config.ts';

/** The yards that this process is asked about, as they are now, in memory. */
@Injectable()
export class YardStates extends Mirror implements OnApplicationShutdown {
  constructor(@Inject(configToken) { databaseUrl, timeouts }: Config) {
    super(databaseUrl, timeouts);
  }

  async onApplicationShutdown(): Promise<void> {
    await this.close();
  }
}
