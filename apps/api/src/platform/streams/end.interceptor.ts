import {
  type CallHandler,
  type ExecutionContext,
  Injectable,
  type NestInterceptor,
  StreamableFile,
} from '@nestjs/common';
import { OperationTypeNode } from 'graphql';
import { map, type Observable } from 'rxjs';
import { admissionOf } from '../access/access.ts';
import { callerOf, infoOf, isGraphql } from '../access/caller.ts';
import { AccessWatch } from './access-watch.ts';
import { endable, isEndless } from './endable.ts';
import { endSse } from './sse.ts';

/** What a handler answers bit by bit ends when its reader may no longer read it, whoever wrote it. */
@Injectable()
export class EndInterceptor implements NestInterceptor {
  constructor(private readonly watch: AccessWatch) {}

  intercept(context: ExecutionContext, next: CallHandler): Observable<unknown> {
    return next.handle().pipe(map((answer: unknown) => this.#bound(context, answer)));
  }

  #bound(context: ExecutionContext, answer: unknown): unknown {
    const admission = admissionOf(callerOf(context));
    if (!admission) return answer;
    if (answer instanceof StreamableFile) {
      const stop = this.watch.watch(admission, (why) => endSse(answer, why));
      answer.getStream().once('close', stop);
    } else if (isSubscription(context) && isEndless(answer)) {
      // An error in the place of the field's value is told as one of the field.
      const { fieldName } = infoOf(context);
      return endable(
        answer,
        (end) => this.watch.watch(admission, end),
        (why) => ({ [fieldName]: why }),
      );
    }
    return answer;
  }
}

function isSubscription(context: ExecutionContext): boolean {
  return (
    isGraphql(context) && infoOf(context).operation.operation === OperationTypeNode.SUBSCRIPTION
  );
}
