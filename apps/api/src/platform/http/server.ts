import { randomUUID } from 'node:crypto';
import type { DynamicModule, LogLevel } from '@nestjs/common';
import { NestApplicationContextOptions } from '@nestjs/common/interfaces/nest-application-context-options.interface.js';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { sendProblem } from '../errors/problem-filter.ts';

/** The application of a module tree, not listening yet. What is wrong with it is thrown. */
export async function createApp(
  root: DynamicModule,
  logLevels: LogLevel[] = ['warn', 'error', 'fatal'],
): Promise<NestFastifyApplication> {
  // Fastify's own parsers know JSON only: what a foreign page's form can send is not understood.
  const options = Object.assign(new NestApplicationContextOptions(), {
    logger: logLevels,
    abortOnError: false,
    bodyParser: false,
  });
  const app = await NestFactory.create<NestFastifyApplication>(root, httpAdapter(), options);
  app.setGlobalPrefix('api/v1');
  readJson(app);
  secureAnswers(app);
  return app;
}

/** A yard file with its hourly table is some hundred kilobytes; ten times that is refused. */
const largestBody = 4 * 1024 * 1024;

function httpAdapter(): FastifyAdapter {
  return new ProblemAdapter({
    bodyLimit: largestBody,
    requestTimeout: 30_000,
    // The id of a task is those of its job and its step, 241 characters at most.
    routerOptions: { maxParamLength: 300 },
    genReqId: () => randomUUID(),
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

/**
 * JSON as Fastify reads it, but for the empty body, which many clients send with the type of JSON
 * where a command takes none: it is no body.
 */
function readJson(app: NestFastifyApplication): void {
  const fastify = app.getHttpAdapter().getInstance();
  const json = fastify.getDefaultJsonParser('error', 'error');
  fastify.removeContentTypeParser('application/json');
  fastify.addContentTypeParser<string>(
    'application/json',
    { parseAs: 'string' },
    (request, body, done) => {
      if (body.trim() === '') done(null);
      else void json(request, body, done);
    },
  );
}

/** Headers of every answer: nothing here is for caches, frames or guessing of types. */
function secureAnswers(app: NestFastifyApplication): void {
  const fastify = app.getHttpAdapter().getInstance();
  fastify.setErrorHandler((error, request, reply) => {
    sendProblem(error, request, reply);
  });
  fastify.addHook('onRequest', async (request: FastifyRequest, reply: FastifyReply) => {
    reply.headers({
      'x-request-id': request.id,
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
      'referrer-policy': 'no-referrer',
      ...(request.url.startsWith('/api/v1/docs') ? {} : { 'cache-control': 'no-store' }),
    });
  });
}
