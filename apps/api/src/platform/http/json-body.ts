import { RouteConfig } from '@nestjs/platform-fastify';
import type { FastifyInstance } from 'fastify';
import { assertStorable } from './storable.ts';

/** A list of thousand readings is some seventy kilobytes. */
export const usualBody = 256 * 1024;
/** A yard file with its hourly table is some hundred kilobytes; ten times that is refused. */
const largeBody = 4 * 1024 * 1024;

/** Declares a handler that takes a whole yard, or the weather of years. */
export const LargeBody = (): MethodDecorator => RouteConfig({ bodyLimit: largeBody });

/** Routes are told their limits as they are made. */
export function limitBodies(fastify: FastifyInstance): void {
  fastify.addHook('onRoute', (route) => {
    const limit: unknown = route.config && Reflect.get(route.config, 'bodyLimit');
    if (typeof limit === 'number') route.bodyLimit = limit;
  });
}

/**
 * JSON as Fastify reads it (`__proto__` and `constructor.prototype` are errors), but for the empty
 * body, which many clients send with the type of JSON where a command takes none: it is no body.
 */
export function readJson(fastify: FastifyInstance): void {
  const json = fastify.getDefaultJsonParser('error', 'error');
  fastify.removeContentTypeParser('application/json');
  fastify.addContentTypeParser<string>(
    'application/json',
    { parseAs: 'string' },
    (request, body, done) => {
      if (body.trim() === '') {
        done(null);
        return;
      }
      void json(request, body, (error, value: unknown) => {
        done(error ?? unstorable(value), value);
      });
    },
  );
}

function unstorable(value: unknown): Error | null {
  try {
    assertStorable(value);
    return null;
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error));
  }
}
