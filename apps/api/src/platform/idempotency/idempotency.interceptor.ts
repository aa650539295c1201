import {
  type CallHandler,
  type ExecutionContext,
  Injectable,
  type NestInterceptor,
} from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { GraphQLBoolean, getNamedType, OperationTypeNode } from 'graphql';
import { from, lastValueFrom, type Observable } from 'rxjs';
import { DomainError, fault } from '#kernel/error.ts';
import { callerOf, infoOf, isGraphql, requestOf } from '../access/caller.ts';
import { fingerprint } from './fingerprint.ts';
import { IdempotencyKeys } from './keys.ts';
import { ownKeysKey } from './own-keys.ts';
import { keptAnswer, secretFieldsKey } from './secret.ts';

/**
 * A command (POST, or a mutation) of a yard that carries an `Idempotency-Key` is done once; its
 * repetition gets the first answer. Updates are guarded by If-Match and deletions by nature.
 */
@Injectable()
export class IdempotencyInterceptor implements NestInterceptor {
  constructor(
    private readonly keys: IdempotencyKeys,
    private readonly reflector: Reflector,
  ) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    const sent = requestOf(context).headers['idempotency-key'];
    const { viewer } = callerOf(context);
    if (sent === undefined || !viewer || !isCommand(context)) return next.handle();
    const handler = context.getHandler();
    if (this.reflector.get<true | undefined>(ownKeysKey, handler) === true) return next.handle();
    const secrets =
      this.reflector.get<readonly string[] | undefined>(secretFieldsKey, handler) ?? [];
    const command = {
      yardId: viewer.yardId,
      memberId: viewer.memberId,
      key: keyOf(sent, context),
      fingerprint: fingerprint(`${context.getClass().name}.${handler.name}`, inputOf(context)),
      // Of a mutation that answers true its transaction says nothing.
      kept: (answer: unknown) =>
        keptAnswer(answer === undefined && answersTrue(context) ? true : answer, secrets),
    };
    return from(
      this.keys.once(command, () => lastValueFrom(next.handle(), { defaultValue: undefined })),
    );
  }
}

function isCommand(context: ExecutionContext): boolean {
  return isGraphql(context)
    ? infoOf(context).operation.operation === OperationTypeNode.MUTATION
    : requestOf(context).method === 'POST';
}

const answersTrue = (context: ExecutionContext): boolean =>
  isGraphql(context) && getNamedType(infoOf(context).returnType) === GraphQLBoolean;

function inputOf(context: ExecutionContext): unknown {
  if (isGraphql(context)) return context.getArgByIndex<unknown>(1);
  const { params, query, body } = requestOf(context);
  return { params, query, body };
}

/** One GraphQL request may hold several commands under one header: the field's name tells them apart. */
function keyOf(sent: string | string[], context: ExecutionContext): string {
  const key = String(sent);
  if (!/^[\x21-\x7e]{1,200}$/.test(key)) {
    const wrong = fault(
      'input.field',
      'Idempotency-Key',
      'the key is not 1 to 200 visible characters',
      {
        value: key.slice(0, 60),
        cure: 'Send a fresh UUID, say.',
      },
    );
    throw new DomainError('input.field', wrong.message, { faults: [wrong] });
  }
  return isGraphql(context) ? `${key} ${String(infoOf(context).path.key)}` : key;
}
