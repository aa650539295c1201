import type { FastifyRequest } from 'fastify';

/**
 * Where a request comes from: of the socket, or behind so many trusted proxies (TRUST_PROXY) what
 * the outermost of them saw.
 */
export const addressOf = (request: FastifyRequest): string => request.ip;
