import 'reflect-metadata';
import type { LogLevel } from '@nestjs/common';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { rootModule } from './app.module.ts';
import type { Config } from './platform/config/config.ts';
import { withDefaults } from './platform/config/defaults.ts';
import { readConfig } from './platform/config/environment.ts';
import { refusePublicDemo } from './platform/access/public-demo.ts';
import { serveDocs } from './platform/http/docs.ts';
import { createApp } from './platform/http/server.ts';

export interface Api {
  /** Where it answers, e.g. `http://127.0.0.1:3000`. */
  readonly url: string;
  readonly app: NestFastifyApplication;
  /** Lets running requests end, closes sockets, gives the database connections back. */
  close(): Promise<void>;
}

export type ApiOptions = Pick<Config, 'databaseUrl'> &
  Partial<Config> & { readonly logLevels?: LogLevel[] };

/** Starts the service on `host:port` (127.0.0.1, 3000; port 0 takes a free one) over a migrated database. */
export async function startApi({ logLevels, ...options }: ApiOptions): Promise<Api> {
  const config = withDefaults(options);
  const app = await createApp(rootModule(config), config, logLevels);
  try {
    serveDocs(app);
    await refusePublicDemo(app, config);
    await app.listen(config.port, config.host);
    if (config.publicUrl.port === '0') config.publicUrl.port = new URL(await app.getUrl()).port;
    return { url: await app.getUrl(), app, close: () => app.close() };
  } catch (error) {
    await app.close();
    throw error;
  }
}

if (import.meta.main) {
  try {
    const api = await startApi(readConfig(process.env));
    api.app.enableShutdownHooks();
    process.stdout.write(`api: ${api.url}\n`);
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exit(1);
  }
}
