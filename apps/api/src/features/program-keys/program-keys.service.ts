import { Injectable } from '@nestjs/common';
import { DomainError, fault, type Fault } from '#kernel/error.ts';
import { hashOf, newToken } from '#persistence/access/token.ts';
import type { Role } from '#planning/yard/people.ts';
import { CurrentPassword } from '../../platform/access/current-password.ts';
import { holdMembership } from '../../platform/access/hold-membership.ts';
import type { Origin } from '../../platform/access/origin.ts';
import { keyPrefix } from '../../platform/access/token.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { Database, oneSnapshot, type Tx } from '../../platform/database/database.ts';
import { Mailer } from '../../platform/mail/mailer.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { refuse } from '../soundness/soundness.service.ts';
import type { NewProgramKey, ProgramKey, ProgramKeyInput } from './program-keys.contract.ts';
import { newKeyMail } from './new-key-mail.ts';
import {
  countOpen,
  deleteKeys,
  insertKey,
  listKeys,
  revokeKey,
  revokeOpenKeys,
  type Whose,
} from './program-keys.store.ts';
import { scopesOf } from './scopes.ts';

const dayMs = 24 * 60 * 60 * 1000;
/** More are forgotten ones. */
const mostOpen = 50;

@Injectable()
export class ProgramKeysService {
  constructor(
    private readonly database: Database,
    private readonly passwords: CurrentPassword,
    private readonly mailer: Mailer,
  ) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<ProgramKey>> {
    const list = (tx: Tx) => listKeys(tx, reachOf(viewer), page, new Date());
    return this.database.inYard(viewer, list, oneSnapshot);
  }

  /** The token is known to nobody but the caller, from here on. The person is told by mail. */
  async create(
    viewer: Viewer,
    account: Account,
    { name, scopes, days, password }: ProgramKeyInput,
    { address }: Origin,
  ): Promise<NewProgramKey> {
    const { yardId, memberId } = viewer;
    refuse(widerThan(viewer.roles, scopes));
    await this.passwords.assert(account, password, address);
    const token = `${keyPrefix}${newToken()}`;
    const createdAt = new Date();
    const key = await this.database.inYard(viewer, async (tx) => {
      refuse(widerThan(await holdMembership(tx, account.sessionId), scopes));
      if ((await countOpen(tx, { yardId, memberId }, createdAt)) >= mostOpen) {
        throw new DomainError('input.limit', `You have ${String(mostOpen)} open keys already.`, {
          cure: 'Revoke those that no program uses any more.',
        });
      }
      const made = await insertKey(tx, {
        yardId,
        memberId,
        name,
        scopes: [...new Set(scopes)],
        tokenHash: hashOf(token),
        createdAt,
        expiresAt: new Date(createdAt.getTime() + days * dayMs),
      });
      return { ...made, token };
    });
    this.mailer.later('a notice of a new program key', () =>
      this.mailer.send(newKeyMail(account, yardId, key)),
    );
    return key;
  }

  revoke(viewer: Viewer, id: string): Promise<void> {
    return this.database.inYard(viewer, (tx) => revokeKey(tx, reachOf(viewer), id, new Date()));
  }
}

/** Ends all keys of the yard, or of one member. */
export const revokeKeys = (tx: Tx, whose: Whose): Promise<void> =>
  revokeOpenKeys(tx, whose, new Date());

/** Ends the keys of a member that reach further than the roles, which have just become fewer. */
export const narrowKeys = (tx: Tx, whose: Required<Whose>, roles: readonly Role[]): Promise<void> =>
  revokeOpenKeys(tx, whose, new Date(), scopesOf(roles));

/** Of a member who is about to be removed; the audit remembers them. */
export const removeKeys = (tx: Tx, whose: Required<Whose>): Promise<void> => deleteKeys(tx, whose);

/** The foreman's are all keys of the yard. */
const reachOf = ({ yardId, memberId, roles }: Viewer): Whose =>
  roles.includes('foreman') ? { yardId } : { yardId, memberId };

function widerThan(roles: readonly Role[], scopes: ProgramKeyInput['scopes']): Fault[] {
  const useful = scopesOf(roles);
  return scopes.flatMap((value, i) =>
    useful.has(value)
      ? []
      : [
          fault('input.field', `scopes[${String(i)}]`, `nothing of yours needs "${value}"`, {
            value,
            cure: `As ${roles.join(' and ')} take ${[...useful].sort().join(', ')} of them.`,
          }),
        ],
  );
}
