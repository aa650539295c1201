import ICAL from 'ical.js';
import nodeIcal from 'node-ical';

/** One entry as both reference parsers read it. */
export interface ReadEvent {
  readonly uid: string;
  readonly sequence: number;
  readonly summary: string;
  readonly description: string;
  readonly location: string;
  readonly cancelled: boolean;
  /** ISO instants, or dates of whole days. */
  readonly start: string;
  readonly end: string;
  readonly stamp: string;
  readonly alarms: readonly { readonly at: string; readonly words: string }[];
}

export interface ReadCalendar {
  readonly name: string;
  readonly zone: string;
  readonly refresh: string;
  readonly events: readonly ReadEvent[];
  /** Minutes east of UTC by the feed's own VTIMEZONE, of a wall time as `2026-03-29T01:30:00`. */
  offsetAt(wall: string): number;
}

function text(value: unknown): string {
  if (value instanceof ICAL.Time || value instanceof ICAL.Duration) return value.toString();
  return typeof value === 'string' ? value : '';
}

/** Of a property that came with RFC 7986, whose value the parser leaves as it is written. */
function newerText(property: ICAL.Property | null): string {
  if (!property) return '';
  const known = ICAL.Property.fromString(`SUMMARY:${text(property.getFirstValue())}`);
  return text(known.getFirstValue());
}

function timeOf(time: ICAL.Time): string {
  return time.isDate ? time.toString() : new Date(time.toUnixTime() * 1000).toISOString();
}

function eventOf(component: ICAL.Component): ReadEvent {
  const event = new ICAL.Event(component);
  return {
    uid: event.uid,
    sequence: event.sequence,
    summary: text(event.summary),
    description: text(event.description),
    location: text(event.location),
    cancelled: component.getFirstPropertyValue('status') === 'CANCELLED',
    start: timeOf(event.startDate),
    end: timeOf(event.endDate),
    stamp: text(component.getFirstPropertyValue('dtstamp')),
    alarms: component.getAllSubcomponents('valarm').map((alarm) => {
      const at = alarm.getFirstPropertyValue('trigger');
      if (!(at instanceof ICAL.Time)) throw new TypeError('an alarm at no moment');
      return { at: timeOf(at), words: text(alarm.getFirstPropertyValue('description')) };
    }),
  };
}

/** Whole days come back as the local midnight of the machine. */
const localDate = (at: Date): string =>
  [at.getFullYear(), at.getMonth() + 1, at.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');

/**
 * Reads a feed with two parsers that know nothing of each other, and throws where they do not say
 * the same, or where the text breaks what both are lenient about: RFC 5545 3.1 (lines of at most 75
 * octets, each ended by CR LF), 3.6 (properties before components) and 3.8.4.7 (a UID each).
 */
export function readCalendar(feed: string): ReadCalendar {
  assertLines(feed);
  const root = new ICAL.Component(ICAL.parse(feed) as unknown[]);
  const events = root.getAllSubcomponents('vevent').map(eventOf);
  assertSame(feed, events);
  const zone = root.getFirstSubcomponent('vtimezone');
  if (!zone) throw new TypeError('the feed has no time zone');
  const clocks = new ICAL.Timezone(zone);
  return {
    name: newerText(root.getFirstProperty('name')),
    zone: clocks.tzid,
    refresh: text(root.getFirstPropertyValue('refresh-interval')),
    events,
    offsetAt: (wall) => clocks.utcOffset(ICAL.Time.fromDateTimeString(wall)) / 60,
  };
}

function assertLines(feed: string): void {
  if (!feed.endsWith('END:VCALENDAR\r\n')) throw new Error('the feed does not end with its end');
  const lines = feed.split('\r\n');
  for (const line of lines) {
    if (/[\r\n]/.test(line)) throw new Error(`a bare break in ${JSON.stringify(line)}`);
    if (Buffer.byteLength(line) > 75) throw new Error(`more than 75 octets: ${line}`);
  }
  let isInside = false;
  for (const line of lines) {
    if (line.startsWith('BEGIN:VALARM')) isInside = true;
    else if (line.startsWith('BEGIN:VEVENT') || line.startsWith('END:VEVENT')) isInside = false;
    else if (
      isInside &&
      lines[lines.indexOf(line) - 1] === 'END:VALARM' &&
      !line.startsWith('BEGIN:VALARM')
    ) {
      throw new Error(`a property after an alarm: ${line}`);
    }
  }
}

function assertSame(feed: string, events: readonly ReadEvent[]): void {
  if (new Set(events.map(({ uid }) => uid)).size !== events.length) throw new Error('a UID twice');
  const other = new Map(
    Object.values(nodeIcal.sync.parseICS(feed)).flatMap((one) =>
      one?.type === 'VEVENT' ? [[one.uid, one]] : [],
    ),
  );
  if (other.size !== events.length)
    throw new Error(`${String(other.size)} events to the other parser`);
  for (const event of events) {
    const theirs = other.get(event.uid);
    if (!theirs) throw new Error(`the other parser has no ${event.uid}`);
    const isDay = theirs.datetype === 'date';
    const seen = {
      sequence: Number(theirs.sequence),
      summary: text(theirs.summary),
      description: text(theirs.description),
      location: text(theirs.location),
      cancelled: theirs.status === 'CANCELLED',
      start: isDay ? localDate(theirs.start) : theirs.start.toISOString(),
      end: isDay && theirs.end ? localDate(theirs.end) : text(theirs.end?.toISOString()),
      alarms: theirs.alarms?.length ?? 0,
    };
    const mine = { ...event, alarms: event.alarms.length };
    for (const [key, value] of Object.entries(seen)) {
      if (mine[key as keyof typeof seen] !== value) {
        throw new Error(
          `${key}: ${JSON.stringify(mine[key as keyof typeof seen])} to one parser, ${JSON.stringify(value)} to the other`,
        );
      }
    }
  }
}
