import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { isoOf } from '#persistence/rows.ts';
import { CurrentPassword } from '../../platform/access/current-password.ts';
import type { Origin } from '../../platform/access/origin.ts';
import { renewSession } from '../../platform/access/sessions.ts';
import { otpauthUri, textOfSecret } from '../../platform/access/totp.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { FactorCodes, setUpMs } from './factor-codes.ts';
import { FactorNotices } from './notices.service.ts';
import type {
  FactorChangeInput,
  RecoveryCodes,
  SecondFactor,
  TotpConfirmed,
  TotpConfirmInput,
  TotpSetUp,
  TotpSetUpInput,
} from './second-factor.contract.ts';
import {
  assertMayChange,
  closeUnshown,
  factorsOf,
  freshRecoveryCodes,
  settleSessions,
} from './second-factor.store.ts';

/** One-time codes of an account: on, off, and what stands in for them. */
@Injectable()
export class SecondFactorService {
  constructor(
    private readonly database: Database,
    private readonly codes: FactorCodes,
    private readonly passwords: CurrentPassword,
    private readonly notices: FactorNotices,
  ) {}

  get(account: Account): Promise<SecondFactor> {
    return this.database.asAccount(account.accountId, async (tx) => {
      const { totpSince, recoveryCodesLeft, passkeys, shownAt } = await factorsOf(tx, account);
      return {
        totpSince: totpSince && isoOf(totpSince),
        recoveryCodesLeft,
        passkeys,
        shownAt: shownAt && isoOf(shownAt),
      };
    });
  }

  /** Before another factor is added or one is taken away. Throws `access.second-factor`. */
  async assertMayChange(tx: Tx, account: Account): Promise<void> {
    assertMayChange(await factorsOf(tx, account));
  }

  /** After a factor was taken away. */
  settle(tx: Tx, accountId: string): Promise<void> {
    return settleSessions(tx, accountId);
  }

  /** The secret is shown here and never again; it asks for nothing before `confirm`. */
  async setUp(account: Account, input: TotpSetUpInput, from: Origin): Promise<TotpSetUp> {
    await this.passwords.assert(account, input.password, from.address);
    const { accountId, email } = account;
    const secret = await this.database.asAccount(accountId, async (tx) => {
      const factors = await factorsOf(tx, account);
      if (factors.totpSince) {
        throw new DomainError('record.exists', 'One-time codes are on already.', {
          cure: 'To move to another authenticator, switch them off first.',
        });
      }
      assertMayChange(factors);
      return this.codes.begin(tx, accountId);
    });
    return {
      secret: textOfSecret(secret),
      uri: otpauthUri(secret, email),
      confirmBefore: new Date(Date.now() + setUpMs).toISOString(),
    };
  }

  /**
   * The session counts as one with a second factor from here, under a new token. Those of the
   * account that have shown none are closed: whoever opened one with the password alone could not
   * do so now.
   */
  async confirm(
    account: Account,
    { code }: TotpConfirmInput,
    { address }: Origin,
  ): Promise<TotpConfirmed> {
    const { accountId, email } = account;
    const { closed, ...confirmed } = await this.codes.confirm(
      accountId,
      code,
      address,
      async (tx) => ({
        recoveryCodes: await freshRecoveryCodes(tx, accountId),
        session: await renewSession(tx, account, { secondFactorAt: new Date() }),
        closed: await closeUnshown(tx, account),
      }),
    );
    const others = closed === 1 ? 'One other session was' : `${String(closed)} other sessions were`;
    this.notices.send(email, 'totp-on', closed > 0 ? `${others} closed.` : '');
    return confirmed;
  }

  async remove(account: Account, input: FactorChangeInput, { address }: Origin): Promise<void> {
    const { accountId, email } = account;
    await this.passwords.assert(account, input.password, address);
    await this.codes.spend(accountId, input.code, address, async (tx) => {
      await tx.recoveryCode.deleteMany({ where: { accountId } });
      await tx.totp.deleteMany({ where: { accountId } });
      await settleSessions(tx, accountId);
    });
    this.notices.send(email, 'totp-off');
  }

  async renewCodes(
    account: Account,
    input: FactorChangeInput,
    { address }: Origin,
  ): Promise<RecoveryCodes> {
    const { accountId, email } = account;
    await this.passwords.assert(account, input.password, address);
    const recoveryCodes = await this.codes.spend(accountId, input.code, address, (tx) =>
      freshRecoveryCodes(tx, accountId),
    );
    this.notices.send(email, 'codes-renewed');
    return { recoveryCodes };
  }
}
