import { Inject, Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { seal, unseal } from '../../platform/access/sealed.ts';
import { newTotpSecret, stepOfCode } from '../../platform/access/totp.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { SignInLimits } from '../../platform/limits/sign-in-limits.ts';
import { recoveryHash } from './recovery-codes.ts';

/** How long a secret waits for its first code, ms. */
export const setUpMs = 15 * 60 * 1000;

export type CodeKind = 'totp' | 'recovery';

/** The secrets behind one-time codes, and the codes that are taken against them, each once. */
@Injectable()
export class FactorCodes {
  constructor(
    private readonly database: Database,
    private readonly limits: SignInLimits,
    @Inject(configToken) private readonly config: Config,
  ) {}

  /** A fresh secret that asks for nothing yet; one that waits already is replaced. */
  async begin(tx: Tx, accountId: string): Promise<Uint8Array<ArrayBuffer>> {
    const secret = newTotpSecret();
    const sealed = seal(this.config.secretKey, secret, about(accountId));
    await tx.totp.deleteMany({ where: { accountId, confirmedAt: null } });
    await tx.totp.createMany({ data: [{ accountId, secret: sealed }] });
    return secret;
  }

  /** Switches codes on with the first of them; what `work` does is of the same transaction. */
  confirm<T>(
    accountId: string,
    typed: string,
    address: string,
    work: (tx: Tx) => Promise<T>,
  ): Promise<T> {
    return this.#limited(accountId, address, async (tx) => {
      const waiting = await tx.totp.findUnique({ where: { accountId } });
      const since = new Date(Date.now() - setUpMs);
      if (!waiting || waiting.confirmedAt || waiting.createdAt < since) {
        throw new DomainError('record.missing', 'No authenticator waits for its first code.', {
          cure: 'Begin the set-up again.',
        });
      }
      const step = this.#stepOf(waiting.secret, accountId, typed);
      if (step === null) return null;
      const { count } = await tx.totp.updateMany({
        where: { accountId, confirmedAt: null, secret: waiting.secret },
        data: { confirmedAt: new Date(), lastStep: step },
      });
      return count === 1 ? { done: await work(tx) } : null;
    });
  }

  /**
   * Takes a code, of the authenticator or a recovery code, which is used up by it even where two
   * calls bring it at once; what `work` does is of the same transaction. Throws `access.code`
   * where the code is wrong, and counts that (`access.often`).
   */
  spend<T>(
    accountId: string,
    typed: string,
    address: string,
    work: (tx: Tx, kind: CodeKind) => Promise<T>,
  ): Promise<T> {
    return this.#limited(accountId, address, async (tx) => {
      const kind = await this.#take(tx, accountId, typed);
      return kind === null ? null : { done: await work(tx, kind) };
    });
  }

  async #take(tx: Tx, accountId: string, typed: string): Promise<CodeKind | null> {
    const totp = await tx.totp.findUnique({ where: { accountId } });
    if (!totp?.confirmedAt) return null;
    const codeHash = recoveryHash(typed);
    if (codeHash !== null) {
      const used = await tx.recoveryCode.updateMany({
        where: { accountId, codeHash, usedAt: null },
        data: { usedAt: new Date() },
      });
      return used.count === 1 ? 'recovery' : null;
    }
    const step = this.#stepOf(totp.secret, accountId, typed);
    if (step === null) return null;
    // One statement: of two that bring the same code, the second finds its step taken.
    const taken = await tx.totp.updateMany({
      where: { accountId, OR: [{ lastStep: null }, { lastStep: { lt: step } }] },
      data: { lastStep: step },
    });
    return taken.count === 1 ? 'totp' : null;
  }

  #stepOf(sealed: Uint8Array, accountId: string, typed: string): number | null {
    const secret = unseal(this.config.secretKey, sealed, about(accountId));
    return stepOfCode(secret, typed.replaceAll(/[\s-]/g, ''), Date.now());
  }

  async #limited<T>(
    accountId: string,
    address: string,
    work: (tx: Tx) => Promise<{ done: T } | null>,
  ): Promise<T> {
    const account = `code:${accountId}`;
    await this.limits.attempt(account, address);
    const taken = await this.database.asAccount(accountId, work);
    if (taken === null) throw new DomainError('access.code');
    await this.limits.succeeded(account, address);
    return taken.done;
  }
}

/** The account is part of the seal: a secret copied to another's row does not open there. */
const about = (accountId: string): string => `totp ${accountId}`;
