import {
  type CallHandler,
  createParamDecorator,
  type ExecutionContext,
  Injectable,
  type NestInterceptor,
} from '@nestjs/common';
import { ApiHeader } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { type Observable, tap } from 'rxjs';
import { DomainError } from '#kernel/error.ts';
import { isGraphql, requestOf } from '../access/caller.ts';

/** A record's `revision` counts its changes; REST shows it as a strong ETag, GraphQL as the field. */
function etagOf(revision: number): string {
  return `"${String(revision)}"`;
}

/** Sets ETag where the answer is one record. */
@Injectable()
export class EtagInterceptor implements NestInterceptor {
  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    if (isGraphql(context)) return next.handle();
    return next.handle().pipe(
      tap((answer: unknown) => {
        const revision: unknown =
          typeof answer === 'object' && answer !== null
            ? Reflect.get(answer, 'revision')
            : undefined;
        if (typeof revision !== 'number') return;
        void context.switchToHttp().getResponse<FastifyReply>().header('etag', etagOf(revision));
      }),
    );
  }
}

const ifMatch = createParamDecorator((_: unknown, context: ExecutionContext): number => {
  const sent = requestOf(context).headers['if-match'];
  if (sent === undefined) throw new DomainError('record.unguarded');
  const digits = /^"(\d{1,9})"$/.exec(sent.trim())?.[1];
  // RFC 9110 13.1.1: a tag that matches nothing, weak ones included, means "changed since".
  if (digits === undefined) throw new DomainError('record.stale');
  return Number(digits);
});

/** The revision that an update was made from, out of If-Match: 428 without it. */
export function IfMatch(): ParameterDecorator {
  return (target, key, index) => {
    ifMatch()(target, key, index);
    const method = key === undefined ? undefined : Object.getOwnPropertyDescriptor(target, key);
    if (method && key !== undefined) {
      ApiHeader({ name: 'If-Match', required: true, description: 'The ETag that was read.' })(
        target,
        key,
        method,
      );
    }
  };
}

/** For `updateMany` and `deleteMany` with the revision in `where`: the record was read, so none met means changed since. */
export function changedOne({ count }: { readonly count: number }): void {
  if (count !== 1) throw new DomainError('record.stale');
}
