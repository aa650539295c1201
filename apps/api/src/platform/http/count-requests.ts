import { Readable } from 'node:stream';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { credentialOf } from '../access/token.ts';
import type { OpenStreams } from '../limits/open-streams.ts';
import type { RequestLimits, Source } from '../limits/request-limits.ts';
import { addressOf } from './address.ts';

/** Who a request counts for. */
export const requestSource = (request: FastifyRequest, isSecure: boolean): Source => ({
  address: addressOf(request),
  token: credentialOf(request.headers, isSecure)?.token,
});

/** Every request of HTTP counts, those for addresses that do not exist as well; so does each open stream. */
export function countRequests(
  fastify: FastifyInstance,
  limits: RequestLimits,
  streams: OpenStreams,
  isSecure: boolean,
): void {
  fastify.addHook('onRequest', (request) => limits.count(requestSource(request, isSecure)));
  fastify.addHook('onSend', async (request, reply, payload) => {
    const isStream = String(reply.getHeader('content-type')).startsWith('text/event-stream');
    if (!isStream || !(payload instanceof Readable)) return;
    try {
      reply.raw.once('close', streams.open(addressOf(request)));
    } catch (error) {
      payload.destroy();
      throw error;
    }
  });
}
