import { z } from 'zod';
import { date } from '#planning/yard/scalars.ts';

const moment = z.iso.datetime();

/** A reminder that a client rings at a moment of its own, not so long before the start. */
const entryAlarmSchema = z.object({ at: moment, words: z.string() });

/** When: from one instant to another, or whole days in the yard's zone (`until` is the day after the last). */
const entryTimeSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('span'), start: moment, end: moment }),
  z.object({ kind: z.literal('days'), from: date, until: date }),
]);
export type EntryTime = z.output<typeof entryTimeSchema>;

/** What a client shows of one entry of a calendar; stored, so that one that is gone can be cancelled. */
export const calendarEntrySchema = z.object({
  summary: z.string(),
  description: z.string(),
  /** Empty: nowhere in particular. */
  location: z.string(),
  time: entryTimeSchema,
  /** Whether it takes the reader's time, or only tells of a day. */
  busy: z.boolean(),
  alarms: z.array(entryAlarmSchema),
});
export type CalendarEntry = z.output<typeof calendarEntrySchema>;
export type EntryAlarm = CalendarEntry['alarms'][number];

/** An entry and what it is about: the key stays the same while time and words change. */
export interface KeyedEntry {
  readonly key: string;
  readonly entry: CalendarEntry;
}

/** What a feed last said of one thing. */
export interface CalendarItem {
  readonly uid: string;
  /** Of the entry: equal marks mean that clients show the same. */
  readonly mark: string;
  /** RFC 5545, 3.8.7.4: goes up with every change of what clients show. */
  readonly sequence: number;
  readonly entry: CalendarEntry;
  readonly cancelled: boolean;
  /** When that was first said, UTC. */
  readonly changedAt: string;
}
