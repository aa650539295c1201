import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { admissionOf } from './access.ts';
import { callerOf } from './caller.ts';

/** `@SessionToken() token: string`: what the call was let in by, for what is derived from it. */
export const SessionToken = createParamDecorator(
  (_: unknown, context: ExecutionContext): string => {
    const admission = admissionOf(callerOf(context));
    if (!admission) throw new DomainError('access.sign-in');
    return admission.credential.token;
  },
);
