import type { DynamicModule, ExecutionContext, Provider } from '@nestjs/common';
import { APP_GUARD } from '@nestjs/core';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { AppModule } from '../../../apps/api/src/app.module.ts';
import { Callers } from '../../../apps/api/src/platform/access/callers.ts';
import { requestOf, setCaller, yardIdOf } from '../../../apps/api/src/platform/access/caller.ts';
import { credentialOf } from '../../../apps/api/src/platform/access/token.ts';
import type { Viewer } from '../../../apps/api/src/platform/access/viewer.ts';
import { type Config, configToken } from '../../../apps/api/src/platform/config/config.ts';
import { withDefaults } from '../../../apps/api/src/platform/config/defaults.ts';
import { Database, type Tx } from '../../../apps/api/src/platform/database/database.ts';
import { createApp } from '../../../apps/api/src/platform/http/server.ts';
import { PlatformModule } from '../../../apps/api/src/platform/platform.module.ts';

/** What the open guard and the misled database go by. */
export interface Opening {
  /** Which yard a transaction enters that a service wants to begin in another. */
  readonly entered: (yardId: string) => string;
  /** As whom the guard lets everybody into a yard. */
  readonly memberOf: (yardId: string) => string;
}

/** The database of a service that enters one yard and asks for another's rows. */
class MisledDatabase extends Database {
  readonly #opening: Opening;

  constructor(config: Config, opening: Opening) {
    super(config);
    this.#opening = opening;
  }

  override inYard<T>(
    viewer: Pick<Viewer, 'yardId' | 'accountId' | 'sees'>,
    work: (tx: Tx) => Promise<T>,
  ): Promise<T> {
    return super.inYard({ ...viewer, yardId: this.#opening.entered(viewer.yardId) }, work);
  }

  override asService<T>(yardId: string, work: (tx: Tx) => Promise<T>): Promise<T> {
    return super.asService(this.#opening.entered(yardId), work);
  }
}

/** Knows who calls, and lets everybody in everywhere, as whatever they like to be. */
const openGuard = (callers: Callers, { memberOf }: Opening) => ({
  canActivate: async (context: ExecutionContext): Promise<boolean> => {
    const credential = credentialOf(requestOf(context).headers, false);
    const { caller } = await callers.known(credential, undefined, true);
    const yardId = yardIdOf(context);
    const { account } = caller;
    if (!account || yardId === undefined) {
      setCaller(context, caller);
      return true;
    }
    const roles = ['foreman', 'builder', 'owner'] as const;
    const { accountId } = account;
    const viewer: Viewer = { accountId, yardId, memberId: memberOf(yardId), roles, sees: 'all' };
    setCaller(context, { ...caller, viewer });
    return true;
  },
});

/**
 * The service without its first wall: the guard asks nothing of the table. Only here: its module tree
 * is the service's own with two providers exchanged, since the service knows no switch for it.
 */
export async function openBuild(
  databaseUrl: string,
  opening: Opening,
): Promise<NestFastifyApplication> {
  const config = withDefaults({ databaseUrl, port: 0 });
  const platform = PlatformModule.with(config);
  const providers = (platform.providers ?? []).map((provider): Provider => {
    if (provider === Database) {
      return {
        provide: Database,
        useFactory: (config: Config) => new MisledDatabase(config, opening),
        inject: [configToken],
      };
    }
    const isGuard = typeof provider === 'object' && provider.provide === APP_GUARD;
    return isGuard
      ? {
          provide: APP_GUARD,
          useFactory: (callers: Callers) => openGuard(callers, opening),
          inject: [Callers],
        }
      : provider;
  });
  const root: DynamicModule = {
    module: OpenRoot,
    imports: [{ ...platform, providers }, AppModule],
  };
  return createApp(root, config, []);
}

// eslint-disable-next-line @typescript-eslint/no-extraneous-class -- Nest goes by classes.
class OpenRoot {}
