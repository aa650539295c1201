import type { DynamicModule } from '@nestjs/common';
import { GraphQLModule } from '@nestjs/graphql';
import { MercuriusDriver, type MercuriusDriverConfig } from '@nestjs/mercurius';
import type { FastifyRequest } from 'fastify';
import type { GraphqlContext } from '../access/caller.ts';
import { formatErrors } from './graphql-error.ts';

/** The deepest answer of ours (boat, refit, part, job) needs six; a cycle of types would not end. */
const deepestQuery = 12;

/** GraphQL at /graphql, code first; subscriptions over the `graphql-transport-ws` protocol. */
export function graphqlModule(): DynamicModule {
  return GraphQLModule.forRoot<MercuriusDriverConfig>({
    driver: MercuriusDriver,
    path: '/graphql',
    autoSchemaFile: true,
    sortSchema: true,
    ide: false,
    queryDepth: deepestQuery,
    errorFormatter: formatErrors,
    context: (req: FastifyRequest): GraphqlContext => ({ req }),
    subscription: {
      wsDefaultSubprotocol: 'graphql-transport-ws',
      verifyClient: ({ origin, req }, decide) => {
        decide(isSameSite(origin, req.headers.host), 403, 'Forbidden');
      },
      context: (_socket, req) => ({ req }),
      // The guard judges at each `subscribe`, so that a revoked session starts nothing new.
      onConnect: ({ payload }: { payload: unknown }) => ({
        authorization: authorizationOf(payload),
      }),
    },
  });
}

/** A browser sends its cookies with any page's socket: only our own pages may open one. */
function isSameSite(origin: string | undefined, host: string | undefined): boolean {
  if (!origin) return true;
  return URL.canParse(origin) && new URL(origin).host === host;
}

/** What `connection_init` brought, for the guard to read like the header of a request. */
function authorizationOf(payload: unknown): unknown {
  return typeof payload === 'object' && payload !== null
    ? Reflect.get(payload, 'authorization')
    : undefined;
}
