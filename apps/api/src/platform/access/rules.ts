import { SetMetadata } from '@nestjs/common';
import type { Role } from '#planning/yard/people.ts';

/** Who may call a handler. Without a rule the service does not start (`rule-check.ts`). */
export type AccessRule =
  | { readonly kind: 'public' }
  | { readonly kind: 'account' }
  | { readonly kind: 'roles'; readonly roles: readonly Role[] };

export const accessRuleKey = 'curewright:access';

const rule = (value: AccessRule): MethodDecorator => SetMetadata(accessRuleKey, value);

/** Anyone, signed in or not. */
export const Public = (): MethodDecorator => rule({ kind: 'public' });

/** Anyone signed in; no yard is named. */
export const SignedIn = (): MethodDecorator => rule({ kind: 'account' });

/** Members of the named yard who hold one of the roles. */
export const May = (...roles: [Role, ...Role[]]): MethodDecorator => rule({ kind: 'roles', roles });
