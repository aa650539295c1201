import { Inject, Injectable } from '@nestjs/common';
import { linkTo } from '#host/links.ts';
import { DomainError } from '#kernel/error.ts';
import { hashOf, newToken } from '#persistence/access/token.ts';
import type { Role } from '#planning/yard/people.ts';
import { holdMembership } from '../../platform/access/hold-membership.ts';
import type { Viewer } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database, oneSnapshot, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { SignInLimits } from '../../platform/limits/sign-in-limits.ts';
import { Throttled } from '../../platform/limits/throttled.ts';
import { Mailer } from '../../platform/mail/mailer.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { invitationMail } from './invitation-mail.ts';
import type { Invitation, InvitationInput, NewInvitation } from './invitations.contract.ts';
import { mailedSecret } from './mailed-link.ts';
import {
  countMailed,
  insertInvitation,
  listInvitations,
  lockInvitable,
  revokeGiven,
  revokeInvitation,
  revokeOpen,
  type Whom,
} from './invitations.store.ts';

const minuteMs = 60_000;
const hourMs = 60 * minuteMs;
const dayMs = 24 * hourMs;
/** A yard that opens invites all of its people at once, and hardly so many. */
const mailsAnHour = 60;
/** The foreman waits for the answer, which holds the link. */
const mailPatienceMs = 5_000;

@Injectable()
export class InvitationsService {
  constructor(
    private readonly database: Database,
    private readonly mailer: Mailer,
    private readonly limits: SignInLimits,
    @Inject(configToken) private readonly config: Config,
  ) {}

  list({ yardId, ...viewer }: Viewer, page: PageRequest): Promise<Page<Invitation>> {
    const list = (tx: Tx) => listInvitations(tx, yardId, page, new Date());
    return this.database.inYard({ yardId, ...viewer }, list, oneSnapshot);
  }

  /** A fresh link ends the one before; the person has no account in the yard yet. */
  async invite(
    viewer: Viewer,
    memberId: string,
    { email, days }: InvitationInput,
  ): Promise<NewInvitation> {
    const { yardId, memberId: invitedById, accountId } = viewer;
    if (email !== null) await this.limits.invited(accountId);
    const token = newToken();
    const createdAt = new Date();
    const end = createdAt.getTime() + days * dayMs;
    const link = linkTo(this.config.publicUrl, 'invitation', token);
    const yard = await this.database.inYard(viewer, (tx) => wordsOf(tx, yardId));
    const invitation = await this.database.inYard(viewer, async (tx) => {
      assertStillForeman(await holdMembership(tx, null));
      await lockInvitable(tx, { yardId, memberId });
      if (email !== null) await assertFewMails(tx, yardId, createdAt);
      await revokeOpen(tx, { yardId, memberId }, createdAt);
      const made = await insertInvitation(tx, {
        yardId,
        memberId,
        email,
        invitedById,
        tokenHash: hashOf(token),
        createdAt,
        expiresAt: new Date(end - (end % minuteMs)),
      });
      await appendEvent(tx, viewer, 'person-invited', 'person', memberId);
      return { ...made, link, mailed: false };
    });
    const secret = mailedSecret(token, this.config.secretKey);
    const inMail = linkTo(this.config.publicUrl, 'invitation', secret);
    const mailed = email !== null && (await this.#mail(email, invitation, yard, inMail));
    return { ...invitation, mailed };
  }

  revoke(viewer: Viewer, id: string): Promise<void> {
    return this.database.inYard(viewer, async (tx) => {
      const memberId = await revokeInvitation(tx, viewer.yardId, id, new Date());
      if (memberId === null) return;
      await appendEvent(tx, viewer, 'invitation-revoked', 'person', memberId);
    });
  }

  /** The invitation stands whether or not the mail goes out: the foreman has the link. */
  #mail(
    to: string,
    { person, invitedBy, expiresAt }: Invitation,
    yard: { readonly name: string; readonly timeZone: string },
    link: string,
  ): Promise<boolean> {
    const { name, timeZone } = yard;
    const words = { yard: name, timeZone, person, invitedBy, expiresAt, link };
    return this.mailer.sentWithin(mailPatienceMs, { to, ...invitationMail(words) });
  }
}

/** Ends the link that is open for a person, if there is one. */
export const revokeInvitations = (tx: Tx, whom: Whom): Promise<void> =>
  revokeOpen(tx, whom, new Date());

/** Ends the links that a member gave, who may give none any more. */
export const revokeGivenInvitations = (tx: Tx, by: Whom): Promise<void> =>
  revokeGiven(tx, by, new Date());

function assertStillForeman(roles: readonly Role[]): void {
  if (!roles.includes('foreman')) throw new DomainError('access.role');
}

const wordsOf = (tx: Tx, yardId: string): Promise<{ name: string; timeZone: string }> =>
  tx.yard.findUniqueOrThrow({ where: { id: yardId }, select: { name: true, timeZone: true } });

async function assertFewMails(tx: Tx, yardId: string, now: Date): Promise<void> {
  const since = new Date(now.getTime() - hourMs);
  if ((await countMailed(tx, yardId, since)) < mailsAnHour) return;
  throw new Throttled('invitations by mail', hourMs);
}
