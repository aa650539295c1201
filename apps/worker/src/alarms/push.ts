import type { PgBoss } from 'pg-boss';
import webPush from 'web-push';
import { whoseOf } from '#access/judge.ts';
import type { Rule } from '#access/rule.ts';
import type { PushKeys } from '#host/push-keys.ts';
import { endpointFault } from '#host/push-endpoint.ts';
import { worthUntil } from '#live/alarms/facts.ts';
import { inYard, service } from '#persistence/client.ts';
import type { Alarm, PrismaClient } from '#persistence/generated/client.ts';
import { factsOf } from '#persistence/live/alarms.ts';
import { pushAnswered, type PushTarget, pushTargets } from '#persistence/live/push.ts';
import { type PushJob, sendPushes } from '#persistence/queue/alarms.ts';
import { type Answered, post } from './post.ts';

export interface PushSurroundings {
  readonly prisma: PrismaClient;
  readonly boss: PgBoss;
  readonly say: (line: string) => void;
  readonly keys: PushKeys;
  /** `mailto:` or https, RFC 8292. */
  readonly contact: string;
  readonly toLocal: boolean;
  /** Who may be told at all. */
  readonly rule: Pick<Rule, 'may'>;
}

/** What a page's service worker gets; `tag` is the same however often it comes, so that it shows once. */
interface Notification {
  readonly tag: string;
  /** A device that is opened for somebody else by now does not show it. */
  readonly accountId: string;
  readonly yardId: string;
  readonly alarmId: string;
  readonly kind: string;
  readonly taskId: string | null;
  readonly title: string;
  readonly body: string;
  readonly at: string;
}

/** Push services need take no more than 4096 bytes, of which the encryption takes 103 (RFC 8030, 7.2). */
const longestBody = 1_500;
const leastSeconds = 60;

/** Kinds that cannot wait for a phone to wake up by itself (RFC 8030, 5.3). */
const pressing: ReadonlySet<string> = new Set([
  'closes',
  'pot-life',
  'missed',
  'too-cold',
  'opens',
]);

/**
 * Sends one notification to one browser, unless whoever it is for was shown it already. At least
 * once: what a push service did not take is tried again. Throws where it should be.
 */
export async function push(surroundings: PushSurroundings, job: PushJob): Promise<void> {
  const ready = await stillToSend(surroundings, job);
  if (ready === null) return;
  const { alarm, target } = ready;
  const now = new Date();
  const facts = factsOf(alarm);
  const until = facts === null ? now : worthUntil(facts, alarm.rungAt ?? now);
  // No worker was there for it in time, or no push service.
  if (until <= now) {
    surroundings.say(`push ${job.subscriptionId}: of no more use`);
    return;
  }
  const { headers, body } = webPush.generateRequestDetails(
    { endpoint: target.endpoint, keys: { p256dh: target.p256dh, auth: target.auth } },
    JSON.stringify(notificationOf(ready)),
    {
      vapidDetails: { subject: surroundings.contact, ...surroundings.keys },
      contentEncoding: 'aes128gcm',
      TTL: Math.max(leastSeconds, Math.ceil((until.getTime() - now.getTime()) / 1000)),
      urgency: pressing.has(alarm.kind) ? 'high' : 'normal',
      // One that was not delivered yet gives way to the same sent again (RFC 8030, 5.4).
      topic: alarm.id.replaceAll('-', ''),
    },
  );
  const sent = Object.fromEntries(
    Object.entries(headers as Record<string, unknown>).map(([name, value]) => [
      name,
      String(value),
    ]),
  );
  const answer = await post({
    endpoint: target.endpoint,
    headers: sent,
    body,
    toLocal: surroundings.toLocal,
  });
  await answered(surroundings, job, answer, until);
}

interface ToSend {
  readonly alarm: Alarm;
  readonly target: PushTarget;
  readonly accountId: string;
  /** Its name. */
  readonly yard: string;
}

/** Null: the member has seen it, left, or taken the browser away. */
function stillToSend(
  { prisma, rule, toLocal, say }: PushSurroundings,
  { yardId, alarmId, memberId, subscriptionId }: PushJob,
): Promise<ToSend | null> {
  return inYard(prisma, service(yardId), async (tx) => {
    const alarm = await tx.alarm.findUnique({ where: { yardId_id: { yardId, id: alarmId } } });
    const receipt = await tx.alarmReceipt.findUnique({
      where: { yardId_alarmId_memberId: { yardId, alarmId, memberId } },
    });
    if (alarm?.state !== 'rung' || (receipt?.shownAt ?? receipt?.acknowledgedAt)) return null;
    const member = await tx.member.findUnique({
      where: { yardId_id: { yardId, id: memberId } },
      select: { accountId: true, roles: true, yard: { select: { name: true } } },
    });
    const accountId = member?.accountId ?? null;
    if (member === null || accountId === null) return null;
    if (typeof rule.may !== 'string' && whoseOf(rule.may, member.roles) === null) return null;
    const targets = await pushTargets(tx, [memberId]);
    const target = targets.find(({ id }) => id === subscriptionId);
    if (target === undefined) return null;
    const wrong = endpointFault(target.endpoint, toLocal);
    if (wrong !== null) {
      say(`push ${subscriptionId}: its address ${wrong}`);
      return null;
    }
    return { alarm, target, accountId, yard: member.yard.name };
  });
}

function notificationOf({ alarm, accountId, yard }: ToSend): Notification {
  const { id, yardId, kind, taskId, words, rungAt } = alarm;
  return {
    tag: id,
    accountId,
    yardId,
    alarmId: id,
    kind,
    taskId,
    title: yard.slice(0, 100),
    body: words.length > longestBody ? `${words.slice(0, longestBody - 1)}…` : words,
    at: (rungAt ?? alarm.dueAt).toISOString(),
  };
}

/** RFC 8030: 201 is taken; 404 and 410 say that there is no such subscription (any more). */
async function answered(
  { prisma, boss, say }: PushSurroundings,
  job: PushJob,
  { status, words, retryAfter }: Answered,
  until: Date,
): Promise<void> {
  const { yardId, subscriptionId } = job;
  const isTaken = status >= 200 && status < 300;
  const isGone = status === 404 || status === 410;
  if (isTaken || isGone) {
    await inYard(prisma, service(yardId), (tx) => pushAnswered(tx, subscriptionId, isGone));
    return;
  }
  const answer = `push ${subscriptionId}: ${String(status)} ${words.replace(/\s+/g, ' ').slice(0, 200)}`;
  const next = new Date(Date.now() + (retryAfter ?? 0) * 1000);
  if (status === 429 && retryAfter !== null && next < until) {
    await inYard(prisma, service(yardId), (tx) => sendPushes(boss, tx, [job], next));
    return;
  }
  // Too many requests, or a fault of theirs: later. Anything else is the same again next time.
  if (status === 429 || status >= 500) throw new Error(answer);
  say(answer);
}
