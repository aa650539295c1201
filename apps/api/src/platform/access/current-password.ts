import { Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { Database } from '../database/database.ts';
import { SignInLimits } from '../limits/sign-in-limits.ts';
import { passwordMatches } from './password.ts';
import type { Account } from './viewer.ts';

/**
 * Asks somebody who is signed in for the password once more, before what a passer-by at an open
 * session must not do. Limited as signing in is: a session must not be a way to guess.
 */
@Injectable()
export class CurrentPassword {
  constructor(
    private readonly database: Database,
    private readonly limits: SignInLimits,
  ) {}

  /** The stored hash that it fits. Throws `input.field` with a fault at `path`. */
  async assert(
    { accountId, email }: Account,
    password: string,
    address: string,
    path = 'password',
  ): Promise<string> {
    await this.limits.attempt(email, address);
    const { passwordHash } = await this.database.asAccount(accountId, (tx) =>
      tx.account.findUniqueOrThrow({ where: { id: accountId }, select: { passwordHash: true } }),
    );
    if (passwordHash === null) {
      throw refused(path, 'the account has no password yet', 'Have a link for setting one sent.');
    }
    if (!(await passwordMatches(passwordHash, password))) {
      throw refused(path, 'it is not your password', 'Type the one that you sign in with.');
    }
    await this.limits.succeeded(email, address);
    return passwordHash;
  }
}

/** 422 and not 401, which would tell a browser that the session is over. */
function refused(path: string, message: string, cure: string): DomainError {
  const wrong = fault('input.field', path, message, { cure });
  return new DomainError('input.field', `${path}: ${message}`, { cure, faults: [wrong] });
}
