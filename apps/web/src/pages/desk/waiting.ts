import type { Schema } from '../../api/client.ts';

export const urgencies = ['now', 'soon', 'later'] as const;
export type Urgency = (typeof urgencies)[number];

export type Kind = 'alarm' | 'report' | 'word' | 'booking' | 'plan' | 'change' | 'snag' | 'warning';

/** A booked chance that a plan takes, and that nobody has booked yet. */
export interface Booking {
  readonly taskId: string;
  readonly task: string;
  readonly part: string;
  readonly boat: string;
  readonly slot: Schema<'PlanSlot'>;
}

/** Everything that may wait, as it was read. */
export interface Desk {
  readonly candidates: readonly Schema<'Candidate'>[];
  readonly reports: readonly Schema<'Report'>[];
  readonly snags: readonly Schema<'Snag'>[];
  readonly changes: readonly Schema<'Change'>[];
  readonly alarms: readonly Schema<'Alarm'>[];
  /** Hold points that are ready: nothing but a word is missing. */
  readonly words: readonly Schema<'ReadyTask'>[];
  readonly bookings: readonly Booking[];
  readonly warnings: number;
}

/** One thing that waits. */
export interface Waiting {
  readonly kind: Kind;
  readonly id: string;
  readonly urgency: Urgency;
  /** What it is ordered by within its urgency, ISO: due, or there since. */
  readonly at: string;
}

const hourMs = 60 * 60_000;
const dayMs = 24 * hourMs;
/** Alarms for others that nobody took note of: older ones were seen to in some other way. */
const alarmMs = 2 * dayMs;
/** What is due within a day is asked for now; within two weeks it is time to ask. */
const nowMs = dayMs;
const soonMs = 14 * dayMs;

const until = (at: string, now: number): Urgency => {
  const left = Date.parse(at) - now;
  return left < nowMs ? 'now' : left < soonMs ? 'soon' : 'later';
};

/** Of alarms that something goes wrong by, and of those that only say that something may begin. */
const pressing: ReadonlySet<Schema<'Alarm'>['kind']> = new Set([
  'closes',
  'missed',
  'too-cold',
  'pot-life',
]);

function ofAlarms(alarms: Desk['alarms'], me: string | undefined, now: number): Waiting[] {
  return alarms
    .filter(({ audience, rungAt }) => {
      const mine = audience.find(({ id }) => id === me);
      if (mine !== undefined) return mine.acknowledgedAt === null;
      const isFresh = Date.parse(rungAt) > now - alarmMs;
      return isFresh && audience.every(({ acknowledgedAt }) => acknowledgedAt === null);
    })
    .map(({ id, kind, rungAt }) => ({
      kind: 'alarm',
      id,
      urgency: pressing.has(kind) ? 'now' : 'soon',
      at: rungAt,
    }));
}

const snagUrgency = ({ state }: Schema<'Snag'>): Urgency =>
  state === 'accepted' ? 'later' : 'soon';

/** Priced, and the foreman's to decide: soon. What the owner decides, or is being priced, is only watched. */
const changeUrgency = ({ state, decides }: Schema<'Change'>): Urgency =>
  state === 'priced' && decides === 'foreman' ? 'soon' : 'later';

/** All that waits, the most urgent first; within an urgency what is due or has waited longest. */
export function waitingOf(desk: Desk, me: string | undefined, now: number): Waiting[] {
  const all: Waiting[] = [
    ...ofAlarms(desk.alarms, me, now),
    ...desk.reports.map(({ id, at }) => ({
      kind: 'report' as const,
      id,
      urgency: 'now' as const,
      at,
    })),
    ...desk.words.map(({ taskId, neededBy, planned }) => {
      const at = neededBy?.at ?? planned?.finish.at ?? new Date(now + soonMs).toISOString();
      return { kind: 'word' as const, id: taskId, urgency: until(at, now), at };
    }),
    ...desk.bookings.map(({ taskId, slot }) => {
      const at = slot.bookBy?.at ?? slot.from.at;
      return { kind: 'booking' as const, id: taskId, urgency: until(at, now), at };
    }),
    ...desk.candidates.map(({ planId, createdAt }) => ({
      kind: 'plan' as const,
      id: planId,
      urgency: 'now' as const,
      at: createdAt,
    })),
    ...desk.changes.map((change) => ({
      kind: 'change' as const,
      id: change.id,
      urgency: changeUrgency(change),
      at: change.createdAt,
    })),
    ...desk.snags.map((snag) => ({
      kind: 'snag' as const,
      id: snag.id,
      urgency: snagUrgency(snag),
      at: snag.foundAt,
    })),
    ...(desk.warnings === 0
      ? []
      : [{ kind: 'warning' as const, id: 'all', urgency: 'later' as const, at: lastOfAll }]),
  ];
  const rank = ({ urgency }: Waiting): number => urgencies.indexOf(urgency);
  return all.sort((a, b) => rank(a) - rank(b) || (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
}

/** After everything that has a moment. */
const lastOfAll = '9999';
