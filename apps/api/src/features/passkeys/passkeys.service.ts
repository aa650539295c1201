import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import { isoOf } from '#persistence/rows.ts';
import { CurrentPassword } from '../../platform/access/current-password.ts';
import type { Origin } from '../../platform/access/origin.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { FactorNotices } from '../second-factor/notices.service.ts';
import { SecondFactorService } from '../second-factor/second-factor.service.ts';
import { Challenges } from './challenges.ts';
import type {
  Passkey,
  PasskeyCreation,
  PasskeyInput,
  PasskeyList,
  PasskeyOptionsInput,
  PasskeyPatch,
} from './passkeys.contract.ts';
import { checkMade, creationOptions } from './webauthn.ts';

/** More than anybody has devices; a session that was stolen fills no table. */
const mostPasskeys = 20;

/** The passkeys of an account. */
@Injectable()
export class PasskeysService {
  constructor(
    private readonly database: Database,
    private readonly challenges: Challenges,
    private readonly passwords: CurrentPassword,
    private readonly factor: SecondFactorService,
    private readonly notices: FactorNotices,
  ) {}

  list({ accountId }: Account): Promise<PasskeyList> {
    return this.database.asAccount(accountId, async (tx) => {
      const orderBy = [{ createdAt: 'asc' as const }, { id: 'asc' as const }];
      const rows = await tx.passkey.findMany({ where: { accountId }, orderBy });
      return { items: rows.map(show) };
    });
  }

  /** What the browser needs to make one. */
  async options(
    account: Account,
    { password }: PasskeyOptionsInput,
    { address }: Origin,
  ): Promise<PasskeyCreation> {
    const { accountId } = account;
    await this.passwords.assert(account, password, address);
    return this.database.asAccount(accountId, async (tx) => {
      const known = await this.#mayAdd(tx, account);
      const options = await creationOptions(this.challenges.site, account, known);
      const challengeId = await this.challenges.keep(tx, accountId, options.challenge);
      return { challengeId, options };
    });
  }

  async add(account: Account, { challengeId, name, credential }: PasskeyInput): Promise<Passkey> {
    const { accountId, email } = account;
    const challenge = await this.challenges.take(challengeId, accountId);
    const made = await checkMade(this.challenges.site, challenge, credential);
    const passkey = await this.database.asAccount(accountId, async (tx) => {
      await holdSession(tx, account);
      // Again: a second factor may have been set up since the options were given.
      await this.#mayAdd(tx, account);
      const { id, publicKey, counter } = made;
      const { transports } = credential.response;
      const data = { id, accountId, name, publicKey, counter, transports };
      return show(await tx.passkey.create({ data }));
    });
    this.notices.send(email, 'passkey-added', `You named it “${name}”.`);
    return passkey;
  }

  rename({ accountId }: Account, id: string, { name }: PasskeyPatch): Promise<Passkey> {
    return this.database.asAccount(accountId, async (tx) => {
      const { count } = await tx.passkey.updateMany({ where: { id, accountId }, data: { name } });
      if (count !== 1) throw missing(id);
      return show(await tx.passkey.findUniqueOrThrow({ where: { id } }));
    });
  }

  async remove(account: Account, id: string): Promise<void> {
    const { accountId, email } = account;
    const name = await this.database.asAccount(accountId, async (tx) => {
      const found = await tx.passkey.findFirst({ where: { id, accountId } });
      if (!found) throw missing(id);
      await this.factor.assertMayChange(tx, account);
      await tx.passkey.deleteMany({ where: { id, accountId } });
      await this.factor.settle(tx, accountId);
      return found.name;
    });
    this.notices.send(
      email,
      'passkey-removed',
      `It was named “${name}”. Where somebody else has the device, close the other sessions too: one that it opened goes on.`,
    );
  }

  /** The passkeys that there are. */
  async #mayAdd(tx: Tx, account: Account): Promise<PasskeyRow[]> {
    await this.factor.assertMayChange(tx, account);
    const known = await tx.passkey.findMany({ where: { accountId: account.accountId } });
    if (known.length < mostPasskeys) return known;
    throw new DomainError(
      'input.limit',
      `An account has ${String(mostPasskeys)} passkeys at most.`,
      {
        cure: 'Remove one that you no longer use.',
      },
    );
  }
}

/** Until the passkey is there: whoever closes the session to keep somebody out waits, and finds it. */
async function holdSession(tx: Tx, { accountId, sessionId }: Account): Promise<void> {
  const open = await tx.$queryRaw<unknown[]>`
    SELECT 1 FROM session WHERE id = ${sessionId}::uuid AND account_id = ${accountId}::uuid FOR SHARE`;
  if (open.length === 0) throw new DomainError('access.sign-in');
}

interface PasskeyRow {
  readonly id: string;
  readonly transports: string[];
  readonly name: string;
  readonly createdAt: Date;
  readonly lastUsedAt: Date | null;
}

const show = ({ id, name, createdAt, lastUsedAt }: PasskeyRow): Passkey => ({
  id,
  name,
  createdAt: isoOf(createdAt),
  lastUsedAt: lastUsedAt && isoOf(lastUsedAt),
});

const missing = (id: string): DomainError =>
  new DomainError('record.missing', `You have no passkey "${id}".`);
