import type { INestApplicationContext } from '@nestjs/common';
import { type Config, isPublicHost } from '../config/config.ts';
import { Database } from '../database/database.ts';

/**
 * The demo's passwords are printed for all to read. Its accounts are those under `.invalid`
 * and `.example`, domains that nobody can have (RFC 2606).
 */
export async function refusePublicDemo(
  app: INestApplicationContext,
  config: Config,
): Promise<void> {
  if (!isPublicHost(config.host) || config.allowPublicDemo) return;
  const demo = await app.get(Database).outsideYards((tx) =>
    tx.account.findFirst({
      where: { OR: [{ email: { endsWith: '.invalid' } }, { email: { endsWith: '.example' } }] },
      select: { email: true },
    }),
  );
  if (demo) {
    throw new Error(
      `HOST ${config.host} can be reached from outside, and ${demo.email} has a demo password. ` +
        'Remove the demo accounts, use HOST=127.0.0.1, or set ALLOW_PUBLIC_DEMO=1.',
    );
  }
}
