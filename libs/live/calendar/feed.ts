import type { CalendarItem, EntryAlarm, EntryTime } from './entry.ts';
import { type Component, dayOf, type Line, textOf, utcOf, written } from './text.ts';
import { zoneComponent } from './zone.ts';

export interface Feed {
  /** Of the link: the calendar's own UID. */
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly zone: string;
  readonly items: readonly CalendarItem[];
  /** When the link was made: the feed is no older than that. */
  readonly madeAt: string;
}

/** How often a client is asked to look again (RFC 7986, 5.7); windows move by the hour, not the day. */
const REFRESH = 'PT15M';

/**
 * The feed as `text/calendar` (RFC 5545, with NAME, REFRESH-INTERVAL and the like of RFC 7986).
 *
 * Times of work are in UTC: a local time with a zone cannot name the second of the two hours that
 * autumn has twice (3.3.5), and nothing here repeats by the wall clock. The yard's zone is told all
 * the same, in a VTIMEZONE: readers see which clock the words mean, and a feed of which everything
 * is gone still has the one component that the grammar asks for. Whole days are dates of the yard's
 * zone, and have no zone themselves.
 *
 * There is no METHOD, which would make it a message of RFC 5546 with an organizer; so DTSTAMP is
 * when the entry was last changed (3.8.7.2), and equal feeds are equal octet by octet.
 */
export function feedText(feed: Feed): string {
  const name = textOf(feed.name);
  const changed = feed.items.map(({ changedAt }) => changedAt);
  const lastChanged = [feed.madeAt, ...changed].reduce((a, b) => (a > b ? a : b));
  const years = yearsOf(feed);
  return written({
    name: 'VCALENDAR',
    lines: [
      ['VERSION', '2.0'],
      ['PRODID', '-//Curewright//Calendar feeds 1//EN'],
      ['CALSCALE', 'GREGORIAN'],
      ['UID', feed.id],
      ['LAST-MODIFIED', utcOf(lastChanged)],
      ['NAME', name],
      ['DESCRIPTION', textOf(feed.description)],
      ['REFRESH-INTERVAL;VALUE=DURATION', REFRESH],
      // What clients understood before RFC 7986, and go on understanding.
      ['X-PUBLISHED-TTL', REFRESH],
      ['X-WR-CALNAME', name],
      ['X-WR-CALDESC', textOf(feed.description)],
      ['X-WR-TIMEZONE', textOf(feed.zone)],
    ],
    inside: [zoneComponent(feed.zone, years.first, years.last), ...feed.items.map(eventOf)],
  });
}

/** A year to either side of all that is said, so that "the same time next spring" can be asked too. */
function yearsOf({ items, madeAt }: Feed): { first: number; last: number } {
  const years = items.flatMap(({ entry: { time } }) =>
    time.kind === 'span' ? [time.start, time.end] : [time.from, time.until],
  );
  const all = [madeAt, ...years].map((text) => Number(text.slice(0, 4)));
  return { first: Math.min(...all) - 1, last: Math.max(...all) + 1 };
}

function eventOf({ uid, sequence, entry, cancelled, changedAt }: CalendarItem): Component {
  const lines: Line[] = [
    ['UID', uid],
    ['DTSTAMP', utcOf(changedAt)],
    ['LAST-MODIFIED', utcOf(changedAt)],
    ['SEQUENCE', String(sequence)],
    ...timeLines(entry.time),
    ['SUMMARY', textOf(entry.summary)],
    ...(entry.location === '' ? [] : [['LOCATION', textOf(entry.location)] as const]),
    ...(entry.description === '' ? [] : [['DESCRIPTION', textOf(entry.description)] as const]),
    ['STATUS', cancelled ? 'CANCELLED' : 'CONFIRMED'],
    ['TRANSP', entry.busy && !cancelled ? 'OPAQUE' : 'TRANSPARENT'],
  ];
  return { name: 'VEVENT', lines, inside: cancelled ? [] : entry.alarms.map(alarmOf) };
}

function timeLines(time: EntryTime): Line[] {
  if (time.kind === 'span') {
    return [
      ['DTSTART', utcOf(time.start)],
      ['DTEND', utcOf(time.end)],
    ];
  }
  return [
    ['DTSTART;VALUE=DATE', dayOf(time.from)],
    ['DTEND;VALUE=DATE', dayOf(time.until)],
  ];
}

const alarmOf = ({ at, words }: EntryAlarm): Component => ({
  name: 'VALARM',
  lines: [
    ['ACTION', 'DISPLAY'],
    ['TRIGGER;VALUE=DATE-TIME', utcOf(at)],
    ['DESCRIPTION', textOf(words)],
  ],
  inside: [],
});
