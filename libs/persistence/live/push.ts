import type { Transaction } from '../client.ts';

/** A browser of a member, and the keys that only it can read with (RFC 8291). */
export interface PushTarget {
  readonly id: string;
  readonly memberId: string;
  readonly endpoint: string;
  readonly p256dh: string;
  readonly auth: string;
}

/** Where notifications for members of the entered yard go; only the service may ask. */
export async function pushTargets(
  tx: Transaction,
  memberIds: readonly string[],
): Promise<PushTarget[]> {
  if (memberIds.length === 0) return [];
  return tx.$queryRaw<PushTarget[]>`
    SELECT id, member_id AS "memberId", endpoint, p256dh, auth
    FROM push_targets(${[...memberIds]}::text[])`;
}

/** The push service took a message for it, or says that there is no such browser any more. */
export async function pushAnswered(
  tx: Transaction,
  subscriptionId: string,
  gone: boolean,
): Promise<void> {
  await tx.$executeRaw`SELECT push_answered(${subscriptionId}::uuid, ${gone})`;
}

/** Takes a browser from the account that signed out of it, for the one that has entered. */
export async function handOverPush(
  tx: Transaction,
  endpoint: string,
  p256dh: string,
  auth: string,
): Promise<void> {
  await tx.$executeRaw`SELECT hand_over_push(${endpoint}, ${p256dh}, ${auth})`;
}
