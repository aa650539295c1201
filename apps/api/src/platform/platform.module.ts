import { type DynamicModule, Module } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_INTERCEPTOR, DiscoveryModule } from '@nestjs/core';
import { byFace } from '#access/by-face.ts';
import type { Rule } from '#access/rule.ts';
import { table } from '#access/table.ts';
import { AccessGuard } from './access/access-guard.ts';
import { Access, rulesToken } from './access/access.ts';
import { Callers } from './access/callers.ts';
import { RuleCheck } from './access/rule-check.ts';
import { Sessions } from './access/sessions.ts';
import { CurrentPassword } from './access/current-password.ts';
import { type Config, configToken } from './config/config.ts';
import { Database } from './database/database.ts';
import { YardStates } from './database/yard-states.ts';
import { ProblemFilter } from './errors/problem-filter.ts';
import { EtagInterceptor } from './etag/revision.ts';
import { graphqlModule } from './graphql/graphql.module.ts';
import { HealthController } from './http/health.controller.ts';
import { LastCalls } from './http/last-calls.ts';
import { IdempotencyInterceptor } from './idempotency/idempotency.interceptor.ts';
import { IdempotencyKeys } from './idempotency/keys.ts';
import { LimitStore } from './limits/limit-store.ts';
import { OpenStreams } from './limits/open-streams.ts';
import { RequestLimits } from './limits/request-limits.ts';
import { SignInLimits } from './limits/sign-in-limits.ts';
import { Mailer } from './mail/mailer.ts';
import { Jobs } from './queue/jobs.ts';
import { AccessWatch } from './streams/access-watch.ts';
import { EndInterceptor } from './streams/end.interceptor.ts';
import { Notices } from './streams/notices.ts';

/** What every feature stands on: database, access, errors, GraphQL; knows no concept of the yard. */
@Module({})
export class PlatformModule {
  /** `rules`: the table, but where a test hangs in handlers of its own. */
  static with(config: Config, rules: readonly Rule[] = table): DynamicModule {
    const limits = new RequestLimits(config);
    return {
      module: PlatformModule,
      global: true,
      imports: [DiscoveryModule, graphqlModule(config, limits)],
      controllers: [HealthController],
      providers: [
        { provide: configToken, useValue: config },
        { provide: rulesToken, useValue: byFace(rules) },
        Database,
        YardStates,
        Sessions,
        IdempotencyKeys,
        LimitStore,
        SignInLimits,
        { provide: RequestLimits, useValue: limits },
        OpenStreams,
        CurrentPassword,
        Mailer,
        Jobs,
        Notices,
        Callers,
        Access,
        AccessWatch,
        RuleCheck,
        LastCalls,
        { provide: APP_GUARD, useClass: AccessGuard },
        { provide: APP_FILTER, useClass: ProblemFilter },
        // The outer first: a replayed answer gets its ETag as the first one did.
        { provide: APP_INTERCEPTOR, useClass: EndInterceptor },
        { provide: APP_INTERCEPTOR, useClass: EtagInterceptor },
        { provide: APP_INTERCEPTOR, useClass: IdempotencyInterceptor },
      ],
      exports: [
        configToken,
        CurrentPassword,
        Database,
        Jobs,
        Mailer,
        Notices,
        Sessions,
        SignInLimits,
        YardStates,
      ],
    };
  }
}
