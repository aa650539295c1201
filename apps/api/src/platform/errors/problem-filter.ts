import { type ArgumentsHost, Catch, type ExceptionFilter } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { graphqlError } from '../graphql/graphql-error.ts';
import { type Report, report } from './report.ts';

/** RFC 9457. `type` is relative to the service: the catalogue is part of its documentation. */
interface Problem {
  readonly type: string;
  readonly title: string;
  readonly status: number;
  readonly detail: string;
  readonly instance: string;
  readonly code: string;
  readonly cure: string;
  readonly errors: Report['faults'];
}

function problemOf(told: Report, instance: string): Problem {
  const { title, status, detail, code, cure, faults } = told;
  return { type: `/problems/${code}`, title, status, detail, instance, code, cure, errors: faults };
}

/** Answers REST with problem+json; what a resolver threw goes on as a GraphQL error of the same words. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  catch(thrown: unknown, host: ArgumentsHost): void {
    if (host.getType<string>() === 'graphql') throw graphqlError(thrown);
    const http = host.switchToHttp();
    sendProblem(thrown, http.getRequest<FastifyRequest>(), http.getResponse<FastifyReply>());
  }
}

/** Also for what fails before a handler is found: a body that is no JSON, or too large. */
export function sendProblem(thrown: unknown, request: FastifyRequest, reply: FastifyReply): void {
  const told = report(thrown);
  if (reply.sent || reply.raw.headersSent) return;
  if (told.retryAfter !== undefined) void reply.header('retry-after', told.retryAfter);
  if (told.status === 401) void reply.header('www-authenticate', 'Bearer');
  void reply
    .code(told.status)
    .type('application/problem+json')
    .send(problemOf(told, `urn:uuid:${request.id}`));
}
