import type { Role } from '#planning/yard/people.ts';
import type { Transaction } from '../client.ts';
import type { PrismaClient } from '../generated/client.ts';

/**
 * What is asked for by a secret, before anybody is known: functions of the second wall that
 * answer one row or none, in one statement. Hashes are the SHA-256 of a token.
 */
export type Db = Pick<Transaction, '$queryRaw'>;

/** A client outside any transaction: what the lookup writes stays, whatever happens next. */
export type OutsideDb = Pick<PrismaClient, '$queryRaw' | '$transaction'>;

type Hash = Uint8Array<ArrayBuffer>;

export interface SessionCaller {
  readonly sessionId: string;
  readonly accountId: string;
  readonly email: string;
  readonly name: string;
  readonly secondFactorAt: Date | null;
  readonly expiresAt: Date;
  /** In the yard that was named; null: no member of it, or there is none. */
  readonly memberId: string | null;
  readonly roles: Role[] | null;
  /** By that yard; false without one. */
  readonly secondFactorRequired: boolean;
}

/**
 * Whose session it is; null once it is closed, over, or was idle so long. With `touch` it has been
 * used just now; looking after it without leaves its idle end where it is.
 */
export async function callerOf(
  db: Db,
  tokenHash: Hash,
  yardId: string | null,
  idleMinutes: number,
  touch: boolean,
): Promise<SessionCaller | null> {
  const rows = await db.$queryRaw<SessionCaller[]>`
    SELECT session_id AS "sessionId", account_id AS "accountId", email, name,
           second_factor_at AS "secondFactorAt", expires_at AS "expiresAt",
           member_id AS "memberId", roles, second_factor_required AS "secondFactorRequired"
    FROM caller_of(${tokenHash}, ${yardId}::text, ${idleMinutes}::int, ${touch})`;
  return rows.at(0) ?? null;
}

export interface KeyCaller {
  readonly keyId: string;
  readonly yardId: string;
  readonly memberId: string;
  readonly accountId: string;
  /** Of the account. */
  readonly email: string;
  readonly name: string;
  readonly roles: Role[];
  readonly scopes: string[];
  readonly expiresAt: Date;
}

/** Whose program key it is; null where it is revoked, over, or its member has no account any more. */
export async function callerOfKey(
  db: Db,
  tokenHash: Hash,
  touch: boolean,
): Promise<KeyCaller | null> {
  const rows = await db.$queryRaw<KeyCaller[]>`
    SELECT key_id AS "keyId", yard_id AS "yardId", member_id AS "memberId",
           account_id AS "accountId", email, name, roles, scopes, expires_at AS "expiresAt"
    FROM caller_of_key(${tokenHash}, ${touch})`;
  return rows.at(0) ?? null;
}

export interface SignInAccount {
  readonly accountId: string;
  readonly name: string;
  readonly passwordHash: string | null;
  readonly hasTotp: boolean;
}

/** The account of an e-mail, in any case. */
export async function signInAccount(db: Db, email: string): Promise<SignInAccount | null> {
  const rows = await db.$queryRaw<SignInAccount[]>`
    SELECT account_id AS "accountId", name, password_hash AS "passwordHash", has_totp AS "hasTotp"
    FROM sign_in_account(${email})`;
  return rows.at(0) ?? null;
}

export interface PendingSignIn {
  readonly accountId: string;
  /** Codes tried, this one counted. */
  readonly attempts: number;
  readonly agent: string;
}

/** Counts one more code tried, at once; null when it is over or five were. */
export async function pendingSignInOf(
  db: OutsideDb,
  tokenHash: Hash,
): Promise<PendingSignIn | null> {
  const rows = await db.$queryRaw<PendingSignIn[]>`
    SELECT account_id AS "accountId", attempts, agent FROM pending_sign_in_of(${tokenHash})`;
  return rows.at(0) ?? null;
}

/** The account whose password the link may set; the link stays good. */
export async function passwordResetKnown(db: Db, tokenHash: Hash): Promise<string | null> {
  const rows = await db.$queryRaw<{ accountId: string | null }[]>`
    SELECT password_reset_known(${tokenHash}) AS "accountId"`;
  return rows.at(0)?.accountId ?? null;
}

/** The same, and the link is used up: of two at once one gets the account. */
export async function passwordResetOf(db: Db, tokenHash: Hash): Promise<string | null> {
  const rows = await db.$queryRaw<{ accountId: string | null }[]>`
    SELECT password_reset_of(${tokenHash}) AS "accountId"`;
  return rows.at(0)?.accountId ?? null;
}

export interface OpenInvitation {
  readonly yardId: string;
  readonly yardName: string;
  readonly invitationId: string;
  readonly memberId: string;
  readonly memberName: string;
  readonly email: string | null;
  readonly expiresAt: Date;
}

/** What an invitation's link leads to; it stays good. */
export async function invitationOf(db: Db, tokenHash: Hash): Promise<OpenInvitation | null> {
  const rows = await db.$queryRaw<OpenInvitation[]>`
    SELECT yard_id AS "yardId", yard_name AS "yardName", invitation_id AS "invitationId",
           member_id AS "memberId", member_name AS "memberName", email, expires_at AS "expiresAt"
    FROM invitation_of(${tokenHash})`;
  return rows.at(0) ?? null;
}

export interface AcceptedInvitation {
  readonly yardId: string;
  readonly memberId: string;
}

/**
 * Makes the account the invited member, uses the link up and writes the yard's event. Null where
 * the link is not good, the member has an account or the account is in the yard already. To be
 * called `asAccount`, since that is who the audit then names.
 */
export async function acceptInvitation(
  db: Db,
  tokenHash: Hash,
  accountId: string,
): Promise<AcceptedInvitation | null> {
  const rows = await db.$queryRaw<AcceptedInvitation[]>`
    SELECT yard_id AS "yardId", member_id AS "memberId"
    FROM accept_invitation(${tokenHash}, ${accountId}::uuid)`;
  return rows.at(0) ?? null;
}

export interface HeldMembership {
  /** Null: the membership is over. */
  readonly roles: Role[] | null;
  /** The yard asks for one that the session has not shown; false where no session was named. */
  readonly lacksSecondFactor: boolean;
}

/**
 * Keeps the membership that the transaction has entered by, and the session where one is named,
 * as they are until it ends. Null where the session is over.
 */
export async function heldMembership(
  tx: Transaction,
  sessionId: string | null,
): Promise<HeldMembership | null> {
  const rows = await tx.$queryRaw<HeldMembership[]>`
    SELECT roles, lacks_second_factor AS "lacksSecondFactor"
    FROM hold_membership(${sessionId}::uuid)`;
  return rows.at(0) ?? null;
}

/** Ends all program keys of the account that the transaction has entered; how many. */
export async function revokeKeysOf(tx: Transaction, accountId: string): Promise<number> {
  const rows = await tx.$queryRaw<{ ended: number }[]>`
    SELECT revoke_keys_of(${accountId}::uuid) AS ended`;
  return rows[0].ended;
}

export interface KnownPasskey {
  readonly accountId: string;
  readonly publicKey: Hash;
  readonly counter: bigint;
  readonly transports: string[];
}

export async function passkeyOf(db: Db, credentialId: string): Promise<KnownPasskey | null> {
  const rows = await db.$queryRaw<KnownPasskey[]>`
    SELECT account_id AS "accountId", public_key AS "publicKey", counter, transports
    FROM passkey_of(${credentialId})`;
  return rows.at(0) ?? null;
}

export interface TakenChallenge {
  /** Null: it was given at a sign-in, to whoever the passkey says. */
  readonly accountId: string | null;
  readonly challenge: string;
}

/** Takes the challenge back, at once: it is answered once, rightly or wrongly. Null when too old. */
export async function takeChallenge(db: OutsideDb, id: string): Promise<TakenChallenge | null> {
  const rows = await db.$queryRaw<TakenChallenge[]>`
    SELECT account_id AS "accountId", challenge FROM take_challenge(${id}::uuid)`;
  return rows.at(0) ?? null;
}

export interface CalendarReader {
  readonly yardId: string;
  readonly linkId: string;
  readonly memberId: string;
  readonly accountId: string;
  readonly roles: Role[];
  readonly kind: string;
  readonly spaceId: string | null;
}

/**
 * Whose a calendar's secret is; null where there is none of it, it was revoked, or its person comes
 * in no more. Noted as read, to the minute.
 */
export async function calendarOf(db: Db, secretHash: Hash): Promise<CalendarReader | null> {
  const rows = await db.$queryRaw<CalendarReader[]>`
    SELECT yard_id AS "yardId", link_id AS "linkId", member_id AS "memberId",
           account_id AS "accountId", roles, kind, space_id AS "spaceId"
    FROM calendar_of(${secretHash})`;
  return rows.at(0) ?? null;
}

/** The e-mail of some account under `.invalid` or `.example`, which nobody can have (RFC 2606). */
export async function demoAccount(db: Db): Promise<string | null> {
  const rows = await db.$queryRaw<{ email: string | null }[]>`
    SELECT demo_account_exists() AS email`;
  return rows.at(0)?.email ?? null;
}

/** Whether there is any yard: an empty database may be filled with the demo. */
export async function hasYards(db: Db): Promise<boolean> {
  const rows = await db.$queryRaw<{ there: boolean }[]>`SELECT has_yards() AS there`;
  return rows.at(0)?.there ?? false;
}

/** Removes sessions, sign-ins, challenges and links that are over; how many rows went. */
export async function purgeAccess(db: Db, idleMinutes: number): Promise<number> {
  const rows = await db.$queryRaw<{ gone: number }[]>`
    SELECT purge_access(${idleMinutes}::int) AS gone`;
  return rows.at(0)?.gone ?? 0;
}
