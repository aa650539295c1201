import { DomainError, fault, type Fault } from '#kernel/error.ts';
import type { OpenInvitation } from '#persistence/access/lookups.ts';
import { assertPassword } from '../../platform/access/password-policy.ts';
import type { InvitationAcceptance } from './joining.contract.ts';

export interface NewAccount {
  /** In lower case. */
  readonly email: string;
  readonly name: string;
  readonly password: string;
}

/** What the holder of a link may make; throws with every field that is wrong or the password's fault. */
export function newAccountOf(invitation: OpenInvitation, input: InvitationAcceptance): NewAccount {
  const { name = invitation.memberName, password } = input;
  const email = (invitation.email ?? input.email)?.toLowerCase();
  const isElsewhere = input.email !== undefined && input.email.toLowerCase() !== email;
  const faults = [
    ...(email === undefined ? [missing('email')] : []),
    ...(isElsewhere ? [elsewhere(input.email)] : []),
    ...(password === undefined ? [missing('password')] : []),
  ];
  if (email === undefined || password === undefined || isElsewhere) {
    const [first] = faults;
    const message = `${first.path}: ${first.message}`;
    throw new DomainError(first.code, message, { cure: first.cure, faults });
  }
  assertPassword(password, [email, name, invitation.yardName]);
  return { email, name, password };
}

const missing = (path: string): Fault =>
  fault('input.field', path, 'a new account needs it', {
    cure: 'Send it, or sign in first with the account that you have.',
  });

/** Not where to: a link that was passed on tells nobody's address. */
const elsewhere = (value: string | undefined): Fault =>
  fault('input.field', 'email', 'the link was sent to another address', {
    value,
    cure: 'Leave it out, sign in with the account that you have, or ask for a link without an address.',
  });

/** Somebody signed in who sends a new account's fields may believe to be somebody else. */
export const superfluousFields = (input: InvitationAcceptance): Fault[] =>
  (['name', 'email', 'password'] as const).flatMap((path) =>
    input[path] === undefined
      ? []
      : [
          fault('input.field', path, 'you are signed in: your account is joined', {
            cure: 'Leave it out, or sign out first to make another account.',
          }),
        ],
  );
