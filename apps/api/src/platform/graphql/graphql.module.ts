import type { DynamicModule } from '@nestjs/common';
import { GraphQLModule } from '@nestjs/graphql';
import { MercuriusDriver, type MercuriusDriverConfig } from '@nestjs/mercurius';
import type { FastifyRequest } from 'fastify';
import type { GraphqlContext } from '../access/caller.ts';
import { csrfHeader, isForeign } from '../access/csrf.ts';
import type { Config } from '../config/config.ts';
import { requestSource } from '../http/count-requests.ts';
import type { RequestLimits } from '../limits/request-limits.ts';
import { formatErrors } from './graphql-error.ts';
import { assertCost, assertIsText, parseOptions, validateOptions } from './query-limits.ts';
import { assertQuerySize } from './query-size.ts';
import { protocol } from './socket-message.ts';

/** GraphQL at /graphql, code first; subscriptions over the `graphql-transport-ws` protocol. */
export function graphqlModule(config: Config, limits: RequestLimits): DynamicModule {
  const { introspection, secureCookie } = config;
  return GraphQLModule.forRoot<MercuriusDriverConfig>({
    driver: MercuriusDriver,
    path: '/graphql',
    autoSchemaFile: true,
    sortSchema: true,
    ide: false,
    allowBatchedQueries: false,
    graphql: { parseOptions, validateOptions: validateOptions(introspection) },
    hooks: {
      preParsing: (_schema, source) => {
        assertIsText(source);
      },
      preValidation: (_schema, document) => {
        assertQuerySize(document, introspection);
      },
      preExecution: async (schema, document, context, variables) => {
        const { calls } = assertCost(schema, document, variables);
        // The request itself counted when it came.
        const source = requestSource(context.reply.request, secureCookie);
        if (calls > 1) await limits.count(source, calls - 1);
      },
    },
    errorFormatter: (execution, { reply }) => formatErrors(execution, { introspection, reply }),
    context: (req: FastifyRequest): GraphqlContext => ({ req }),
    // A field with a resolver of its own has a row in the table of access like any other.
    fieldResolverEnhancers: ['guards', 'filters'],
    subscription: {
      wsDefaultSubprotocol: protocol,
      // A browser sends its cookies with any page's socket: only our own pages may open one.
      verifyClient: ({ req }, decide) => {
        decide(!isForeign(req.headers, config.publicUrl), 403, 'Forbidden');
      },
      context: (_socket, req) => ({ req }),
      // The guard judges at each `subscribe`, so that a revoked session starts nothing new.
      onConnect: ({ payload }: { payload: unknown }): Pick<GraphqlContext, 'connection'> => ({
        connection: {
          authorization: brought(payload, 'authorization'),
          csrf: brought(payload, csrfHeader),
        },
      }),
    },
  });
}

/** What `connection_init` brought, for the guard to read like a header of the request. */
function brought(payload: unknown, name: string): unknown {
  return typeof payload === 'object' && payload !== null ? Reflect.get(payload, name) : undefined;
}
