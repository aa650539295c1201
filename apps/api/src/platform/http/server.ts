import { randomUUID } from 'node:crypto';
import type { DynamicModule, LogLevel } from '@nestjs/common';
import { NestApplicationContextOptions } from '@nestjs/common/interfaces/nest-application-context-options.interface.js';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Config } from '../config/config.ts';
import { sendProblem } from '../errors/problem-filter.ts';
import { guardSockets } from '../graphql/socket-guard.ts';
import { OpenStreams } from '../limits/open-streams.ts';
import { RequestLimits } from '../limits/request-limits.ts';
import { serveScreens } from '../pages/serve-screens.ts';
import { answerClientError } from './client-errors.ts';
import { countRequests } from './count-requests.ts';
import { setBareHeaders, setHeaders } from './headers.ts';
import { limitBodies, readJson, usualBody } from './json-body.ts';
import { readPictures } from './picture-body.ts';
import { assertStorable } from './storable.ts';
import { trustedProxies } from './trusted-proxies.ts';

/** The application of a module tree, not listening yet. What is wrong with it is thrown. */
export async function createApp(
  root: DynamicModule,
  config: Config,
  logLevels: LogLevel[] = ['warn', 'error', 'fatal'],
): Promise<NestFastifyApplication> {
  // Fastify's own parsers know JSON only: what a foreign page's form can send is not understood.
  const options = Object.assign(new NestApplicationContextOptions(), {
    logger: logLevels,
    abortOnError: false,
    bodyParser: false,
  });
  const adapter = httpAdapter(config);
  const app = await NestFactory.create<NestFastifyApplication>(root, adapter, options);
  app.setGlobalPrefix('api/v1');
  const fastify = adapter.getInstance();
  fastify.setErrorHandler((error, request, reply) => {
    sendProblem(error, request, reply);
  });
  await setHeaders(app, config);
  const [limits, streams] = [app.get(RequestLimits), app.get(OpenStreams)];
  countRequests(fastify, limits, streams, config.secureCookie);
  limitBodies(fastify);
  readJson(fastify);
  readPictures(fastify);
  serveScreens(fastify, config.screensFolder);
  fastify.addHook('preHandler', ({ params, query }, _reply, done) => {
    assertStorable(params);
    assertStorable(query);
    done();
  });
  guardSockets(fastify, {
    requests: limits,
    streams,
    isSecure: config.secureCookie,
    introspection: config.introspection,
  });
  return app;
}

function httpAdapter({ trustProxy }: Config): FastifyAdapter {
  return new ProblemAdapter({
    bodyLimit: usualBody,
    // Until a request is there whole. Statements, locks and transactions have timeouts of their own.
    requestTimeout: 30_000,
    http: { headersTimeout: 10_000 },
    trustProxy: trustedProxies(trustProxy),
    // The id of a task is those of its job and its step, 241 characters at most.
    routerOptions: { maxParamLength: 300 },
    genReqId: () => randomUUID(),
    frameworkErrors: (error: Error, request: FastifyRequest, reply: FastifyReply) => {
      setBareHeaders(request, reply);
      sendProblem(error, request, reply);
    },
    clientErrorHandler: answerClientError,
  });
}

/**
 * Errors that Fastify meets by itself (a body that is no JSON, say) are answered like ours. Nest
 * would set its own handler for them, but only after GraphQL's start has fixed the routes'.
 */
class ProblemAdapter extends FastifyAdapter {
  override setErrorHandler(): ReturnType<FastifyAdapter['setErrorHandler']> {
    return this.getInstance();
  }
}
