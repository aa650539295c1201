import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import { Args, ID } from '@nestjs/graphql';
import type { FastifyRequest } from 'fastify';
import { DomainError } from '#kernel/error.ts';
import { bearerToken, tokenOf } from './token.ts';
import type { Account, Caller, Viewer } from './viewer.ts';

/** Mercurius' context of a call: a request over HTTP, or a socket with what its `connection_init` brought. */
export interface GraphqlContext {
  readonly req: FastifyRequest;
  readonly authorization?: unknown;
}

/**
 * One call has one key: the request of REST, or in GraphQL the field being resolved, since two
 * fields of one query may name two yards and are resolved side by side.
 */
const callers = new WeakMap<object, Caller>();

export function setCaller(context: ExecutionContext, caller: Caller): void {
  callers.set(callKey(context), caller);
}

function callKey(context: ExecutionContext): object {
  const key: unknown = isGraphql(context) ? context.getArgByIndex(3) : context.getArgByIndex(0);
  if (typeof key !== 'object' || key === null) throw new TypeError('a call without a request');
  return key;
}

export function isGraphql(context: ExecutionContext): boolean {
  return context.getType<string>() === 'graphql';
}

export function requestOf(context: ExecutionContext): FastifyRequest {
  return isGraphql(context)
    ? context.getArgByIndex<GraphqlContext>(2).req
    : context.switchToHttp().getRequest<FastifyRequest>();
}

export function tokenOfCall(context: ExecutionContext): string | undefined {
  const sent = isGraphql(context)
    ? context.getArgByIndex<GraphqlContext>(2).authorization
    : undefined;
  return bearerToken(sent) ?? tokenOf(requestOf(context).headers);
}

/** The yard that a call names: in its address, as an argument, or in its input. */
export function yardIdOf(context: ExecutionContext): string | undefined {
  const named: unknown = isGraphql(context) ? context.getArgByIndex(1) : requestOf(context).params;
  return field(named, 'yardId') ?? field(fieldOf(named, 'input'), 'yardId');
}

function field(of: unknown, key: string): string | undefined {
  const value = fieldOf(of, key);
  return typeof value === 'string' ? value : undefined;
}

function fieldOf(of: unknown, key: string): unknown {
  return typeof of === 'object' && of !== null ? Reflect.get(of, key) : undefined;
}

export function callerOf(context: ExecutionContext): Caller {
  return callers.get(callKey(context)) ?? {};
}

/** `@By() viewer: Viewer`, in a handler with `@May`. */
export const By = createParamDecorator((_: unknown, context: ExecutionContext): Viewer => {
  const { viewer } = callerOf(context);
  if (!viewer) throw new DomainError('access.sign-in');
  return viewer;
});

/** `@ByAccount() account: Account`, in a handler with `@SignedIn`. */
export const ByAccount = createParamDecorator((_: unknown, context: ExecutionContext): Account => {
  const { account } = callerOf(context);
  if (!account) throw new DomainError('access.sign-in');
  return account;
});

/** The GraphQL argument `yardId`, by which the guard knows the yard. */
export const YardArg = (): ParameterDecorator => Args('yardId', { type: () => ID });
