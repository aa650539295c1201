import { z } from 'zod';
import { DomainError, fault } from '#kernel/error.ts';

/**
 * Of a phone's clock, with its offset from UTC or `Z`; seconds count. No clock shows an earlier year
 * than it begins with, and the database has no year 0.
 */
export const phoneClock = z.iso
  .datetime({ offset: true })
  .refine((at) => Date.parse(at) >= 0, 'no clock shows a time before 1970');

/** What a report of work says of time; both may be left out. */
export const phoneTimes = {
  at: phoneClock
    .optional()
    .describe('When it really was, by the clock of whoever reports it; left out, now.'),
  sentAt: phoneClock
    .optional()
    .describe(
      'What that clock says as this is sent, anew with each attempt: by how far the clock is off `at` is corrected.',
    ),
};

export interface PhoneTimes {
  readonly at?: string | undefined;
  readonly sentAt?: string | undefined;
}

/** Clocks that agree still differ by so much: a picker that rounds up, a network's time. No source. */
const slackMs = 60_000;
const minuteMs = 60_000;
/**
 * A clock that was reset begins years ago, and nobody reports work that late: a film laid then would
 * have missed all its windows. No source.
 */
const mostDaysAgo = 366;
const dayMs = 24 * 60 * minuteMs;

/**
 * How far the service's clock is ahead of the phone's, ms. What the message took on its way counts
 * with it, so a moment comes out later than it was by that much, never earlier.
 */
const clockLag = (sentAt: string | undefined, now: Date): number =>
  sentAt === undefined ? 0 : now.getTime() - Date.parse(sentAt);

/**
 * The same in whole minutes, ms, downwards: moments that are whole minutes of the phone's clock stay
 * so, keep their distances, and none comes to lie in the future.
 */
export const wholeMinutesLag = (sentAt: string | undefined, now: Date): number =>
  Math.floor(clockLag(sentAt, now) / minuteMs) * minuteMs;

/**
 * When something that a phone reports really was, by the service's clock: never in the future, and
 * within a year. Throws `input.field` with a fault at `at` where it is longer ago, where the phone
 * itself had not come so far when it sent or, where it does not say when that was, the service has not.
 */
export function phoneMoment({ at, sentAt }: PhoneTimes, now: Date): Date {
  if (at === undefined) return now;
  const really = Date.parse(at) + clockLag(sentAt, now);
  if (really > now.getTime() + slackMs) throw wrong(at, ...tooLate(sentAt));
  if (really < now.getTime() - mostDaysAgo * dayMs) throw wrong(at, ...tooEarly);
  return new Date(Math.min(really, now.getTime()));
}

type Told = readonly [message: string, cure: string];

const tooLate = (sentAt: string | undefined): Told =>
  sentAt === undefined
    ? [
        'is in the future',
        'Send it when it is so; of a phone whose clock is ahead, send what it says now as `sentAt` too.',
      ]
    : [
        `is after it was sent, ${sentAt} by the same clock`,
        'Give both by one clock: it was set back in between, or the time is mistyped.',
      ];

const tooEarly: Told = [
  'is more than a year ago',
  'Give the moment at which it really was: the clock was reset, or the date is mistyped.',
];

function wrong(at: string, message: string, cure: string): DomainError {
  const faults = [fault('input.field', 'at', message, { value: at, cure })];
  return new DomainError('input.field', `at: ${message}`, { cure, faults });
}

/** As readings and observations have it: the minute that had begun, ISO in UTC. */
export const wholeMinute = (at: Date): string =>
  new Date(Math.floor(at.getTime() / minuteMs) * minuteMs).toISOString().replace('.000Z', 'Z');
