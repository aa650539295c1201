import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import { Args, ID } from '@nestjs/graphql';
import type { FastifyRequest } from 'fastify';
import type { GraphQLResolveInfo } from 'graphql';
import { DomainError } from '#kernel/error.ts';
import type { Account, Caller, Viewer } from './viewer.ts';

/** Mercurius' context of a call: a request over HTTP, or a socket with what its `connection_init` brought. */
export interface GraphqlContext {
  readonly req: FastifyRequest;
  readonly connection?: { readonly authorization: unknown; readonly csrf: unknown };
}

/**
 * One call has one key: the request of REST, or in GraphQL the root field being resolved, since
 * two fields of one query may name two yards and are resolved side by side. What is below a root
 * field is asked for by the same caller.
 */
const callers = new WeakMap<object, Caller>();

export function setCaller(context: ExecutionContext, caller: Caller): void {
  callers.set(callKey(context), caller);
}

/** Undefined: the guard has not seen the call. */
export function knownCaller(context: ExecutionContext): Caller | undefined {
  return callers.get(callKey(context));
}

export function callerOf(context: ExecutionContext): Caller {
  return knownCaller(context) ?? { by: null };
}

function callKey(context: ExecutionContext): object {
  if (!isGraphql(context)) return requestOf(context);
  let { path } = infoOf(context);
  while (path.prev) path = path.prev;
  return path;
}

export function isGraphql(context: ExecutionContext): boolean {
  return context.getType<string>() === 'graphql';
}

export function infoOf(context: ExecutionContext): GraphQLResolveInfo {
  return context.getArgByIndex<GraphQLResolveInfo>(3);
}

/** What the socket of a subscription brought; undefined for a call over HTTP. */
export function connectionOf(context: ExecutionContext): GraphqlContext['connection'] {
  return isGraphql(context) ? context.getArgByIndex<GraphqlContext>(2).connection : undefined;
}

export function requestOf(context: ExecutionContext): FastifyRequest {
  return isGraphql(context)
    ? context.getArgByIndex<GraphqlContext>(2).req
    : context.switchToHttp().getRequest<FastifyRequest>();
}

/** The yard that a call names: in its address, or as the argument `yardId`. */
export function yardIdOf(context: ExecutionContext): string | undefined {
  const named: unknown = isGraphql(context) ? context.getArgByIndex(1) : requestOf(context).params;
  if (typeof named !== 'object' || named === null) return undefined;
  const yardId: unknown = Reflect.get(named, 'yardId');
  return typeof yardId === 'string' ? yardId : undefined;
}

/** `@By() viewer: Viewer`, where the table gives roles. */
export const By = createParamDecorator((_: unknown, context: ExecutionContext): Viewer => {
  const { viewer } = callerOf(context);
  if (!viewer) throw new DomainError('access.sign-in');
  return viewer;
});

/** `@ByAccount() account: Account`, where no program key may call. */
export const ByAccount = createParamDecorator((_: unknown, context: ExecutionContext): Account => {
  const { account } = callerOf(context);
  if (!account) throw new DomainError('access.sign-in');
  return account;
});

/** `@ByMaybe() caller: Caller`, where anyone may call and it matters whether they are signed in. */
export const ByMaybe = createParamDecorator((_: unknown, context: ExecutionContext): Caller =>
  callerOf(context),
);

/** The GraphQL argument `yardId`, by which the guard knows the yard. */
export const YardArg = (): ParameterDecorator => Args('yardId', { type: () => ID });
