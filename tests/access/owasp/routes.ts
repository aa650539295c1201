import { createApp } from '../../../apps/api/src/platform/http/server.ts';
import { serveDocs } from '../../../apps/api/src/platform/http/docs.ts';
import { rootModule } from '../../../apps/api/src/app.module.ts';
import { withDefaults } from '../../../apps/api/src/platform/config/defaults.ts';

/** Every route that the service has, `GET /api/v1/yards/{yardId}`, as the server itself is told of them. */
export async function routesOf(databaseUrl: string): Promise<string[]> {
  const config = withDefaults({ databaseUrl, port: 0 });
  const app = await createApp(rootModule(config), config, []);
  const routes: string[] = [];
  app
    .getHttpAdapter()
    .getInstance()
    .addHook('onRoute', ({ method, url }) => {
      for (const one of [method].flat()) {
        routes.push(`${one} ${url.replaceAll(/:(\w+)/g, '{$1}')}`);
      }
    });
  try {
    serveDocs(app);
    await app.init();
    return routes;
  } finally {
    await app.close();
  }
}
