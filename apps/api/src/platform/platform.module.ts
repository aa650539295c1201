import { type DynamicModule, Module } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_INTERCEPTOR, DiscoveryModule } from '@nestjs/core';
import { AccessGuard } from './access/access-guard.ts';
import { RuleCheck } from './access/rule-check.ts';
import { Sessions } from './access/sessions.ts';
import { type Config, configToken } from './config/config.ts';
import { Database } from './database/database.ts';
import { ProblemFilter } from './errors/problem-filter.ts';
import { EtagInterceptor } from './etag/revision.ts';
import { graphqlModule } from './graphql/graphql.module.ts';
import { HealthController } from './http/health.controller.ts';
import { LastCalls } from './http/last-calls.ts';
import { IdempotencyInterceptor } from './idempotency/idempotency.interceptor.ts';
import { IdempotencyKeys } from './idempotency/keys.ts';

/** What every feature stands on: database, access, errors, GraphQL; knows no concept of the yard. */
@Module({})
export class PlatformModule {
  static with(config: Config): DynamicModule {
    return {
      module: PlatformModule,
      global: true,
      imports: [DiscoveryModule, graphqlModule()],
      controllers: [HealthController],
      providers: [
        { provide: configToken, useValue: config },
        Database,
        Sessions,
        IdempotencyKeys,
        RuleCheck,
        LastCalls,
        { provide: APP_GUARD, useClass: AccessGuard },
        { provide: APP_FILTER, useClass: ProblemFilter },
        // The outer first: a replayed answer gets its ETag as the first one did.
        { provide: APP_INTERCEPTOR, useClass: EtagInterceptor },
        { provide: APP_INTERCEPTOR, useClass: IdempotencyInterceptor },
      ],
      exports: [configToken, Database, Sessions],
    };
  }
}
