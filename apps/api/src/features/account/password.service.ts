import { Inject, Injectable } from '@nestjs/common';
import { linkTo } from '#host/links.ts';
import { DomainError, fault } from '#kernel/error.ts';
import {
  dropFactors,
  endAccess,
  endAllAccess,
  openPasswordReset,
} from '#persistence/access/accounts.ts';
import { passwordResetKnown, passwordResetOf, signInAccount } from '#persistence/access/lookups.ts';
import { hashOf } from '#persistence/access/token.ts';
import { enter } from '#persistence/client.ts';
import { CurrentPassword } from '../../platform/access/current-password.ts';
import type { Origin } from '../../platform/access/origin.ts';
import { assertPassword } from '../../platform/access/password-policy.ts';
import { hashPassword } from '../../platform/access/password.ts';
import type { Session } from '../../platform/access/session-shape.ts';
import { renewSession } from '../../platform/access/sessions.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { SignInLimits } from '../../platform/limits/sign-in-limits.ts';
import { Mailer } from '../../platform/mail/mailer.ts';
import type { PasswordChange, PasswordReset, ResetRequest } from './account.contract.ts';
import { changedMail, resetMail } from './mails.ts';

/** Links that one account is sent in an hour: enough for a slow mail server, too few to be a nuisance. */
const mostLinks = 3;
const hourMs = 60 * 60 * 1000;

@Injectable()
export class PasswordService {
  constructor(
    private readonly database: Database,
    private readonly current: CurrentPassword,
    private readonly limits: SignInLimits,
    private readonly mailer: Mailer,
    @Inject(configToken) private readonly config: Config,
  ) {}

  /** Closes all sessions but the one that asks, which goes on under a new token. */
  async change(
    account: Account,
    { oldPassword, password }: PasswordChange,
    { address }: Origin,
  ): Promise<Session> {
    const { accountId, sessionId } = account;
    const old = await this.current.assert(account, oldPassword, address, 'oldPassword');
    const known = await this.database.asAccount(accountId, (tx) => recipientOf(tx, accountId));
    assertPassword(password, known.words);
    if (password === oldPassword) throw unchanged();
    const passwordHash = await hashPassword(password);
    const session = await this.database.asAccount(accountId, async (tx) => {
      const where = { id: accountId, passwordHash: old };
      const { count } = await tx.account.updateMany({ where, data: { passwordHash } });
      if (count !== 1) throw new DomainError('record.stale', 'The password was changed meanwhile.');
      await endAccess(tx, accountId, sessionId);
      return renewSession(tx, account);
    });
    this.#tellOf(known, 'by somebody who was signed in and knew the old one');
    return session;
  }

  /**
   * The answer is the same, and as soon, whether there is such an account or not (OWASP, Forgot
   * Password Cheat Sheet): all that depends on it happens after.
   */
  async requestReset({ email }: ResetRequest, { address }: Origin): Promise<void> {
    await this.limits.mailed(address);
    this.mailer.later('a link for a password', () => this.#sendLink(email));
  }

  /**
   * By whoever holds the link. Ends all sessions and program keys. A second factor stays what it is,
   * but for the first link that is used: until then anybody may have made the account under the
   * address of somebody else, who must not be left with a way in of theirs.
   */
  async reset({ token, password }: PasswordReset, { address }: Origin): Promise<void> {
    await this.limits.attempt(null, address);
    const tokenHash = hashOf(token);
    const accountId = await this.database.lookUp((db) => passwordResetKnown(db, tokenHash));
    if (accountId === null) throw new DomainError('access.link');

    const known = await this.database.asAccount(accountId, (tx) => recipientOf(tx, accountId));
    // Whoever reads the account's mail is not one of the strangers who may be guessing at it.
    await this.limits.succeeded(known.email, address);
    assertPassword(password, known.words);
    const passwordHash = await hashPassword(password);
    await this.database.asAccount(accountId, async (tx) => {
      // Of two at once one gets it; and a password that was refused before has not used it up.
      if ((await passwordResetOf(tx, tokenHash)) !== accountId)
        throw new DomainError('access.link');
      const emailProvedAt = known.emailProvedAt ?? new Date();
      const data = { passwordHash, emailProvedAt };
      await tx.account.updateMany({ where: { id: accountId }, data });
      await endAllAccess(tx, accountId);
      // Last: who is setting one up right now holds a session that is closed by then.
      if (known.emailProvedAt === null) await dropFactors(tx, accountId);
    });
    this.#tellOf(known, 'by somebody who had a link that was sent to you');
  }

  async #sendLink(email: string): Promise<void> {
    const account = await this.database.lookUp((db) => signInAccount(db, email));
    if (account === null) return;
    const { accountId, name } = account;
    const token = await this.database.asAccount(accountId, async (tx) => {
      // One after the other: of many asked for at once each would count the links before it only.
      await tx.$queryRaw`SELECT 1 FROM account WHERE id = ${accountId}::uuid FOR UPDATE`;
      const createdAt = { gt: new Date(Date.now() - hourMs) };
      const lately = await tx.passwordReset.count({ where: { accountId, createdAt } });
      const opened = lately < mostLinks ? await openPasswordReset(tx, accountId) : null;
      // Whoever asked did not sign in: the audit is not to say that it was the account.
      await enter(tx, { as: 'nobody' });
      return opened;
    });
    if (token === null) return;
    const recipient = { email: email.toLowerCase(), name };
    const link = linkTo(this.config.publicUrl, 'password', token);
    try {
      await this.mailer.send(resetMail(recipient, link));
    } catch (error) {
      // Nobody has it: it must not count, or a mail server that was down would shut them out for an hour.
      const where = { tokenHash: hashOf(token) };
      await this.database.asAccount(accountId, (tx) => tx.passwordReset.deleteMany({ where }));
      throw error;
    }
  }

  #tellOf(recipient: Recipient, how: string): void {
    this.mailer.later('a notice of a changed password', () =>
      this.mailer.send(changedMail(recipient, how, this.config.publicUrl)),
    );
  }
}

function unchanged(): DomainError {
  const wrong = fault('access.password', 'password', 'it is the one you have', {
    cure: 'Take another one.',
  });
  return new DomainError('access.password', wrong.message, { cure: wrong.cure, faults: [wrong] });
}

interface Recipient {
  readonly email: string;
  readonly name: string;
  readonly emailProvedAt: Date | null;
  /** What somebody who knows the person would try as a password. */
  readonly words: readonly string[];
}

async function recipientOf(tx: Tx, accountId: string): Promise<Recipient> {
  const where = { id: accountId };
  const { email, name, emailProvedAt } = await tx.account.findUniqueOrThrow({ where });
  const members = await tx.member.findMany({ where: { accountId }, include: { yard: true } });
  const words = members.flatMap((member) => [member.name, member.yard.name]);
  return { email, name, emailProvedAt, words: [email, name, ...words] };
}
