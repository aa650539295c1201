import { instantAt } from '#calendar/local-time.ts';
import { dayNumber } from '#calendar/local-date.ts';
import { canonical, fnv64 } from '#planning/compile/trace/hash.ts';
import type { CalendarEntry, CalendarItem, KeyedEntry } from './entry.ts';

const markOf = (entry: CalendarEntry): string => fnv64(canonical(entry));

/** When an entry is past, epoch milliseconds; a day in the yard's zone. */
function endOf({ time }: CalendarEntry, zone: string): number {
  if (time.kind === 'span') return Date.parse(time.end);
  return instantAt(dayNumber(time.until), 0, zone) * 60_000;
}

export interface Followed {
  /** What the feed says now, by time. */
  readonly shown: readonly CalendarItem[];
  /** Those of its items that are to be stored: new, or said differently. */
  readonly changed: readonly CalendarItem[];
}

export interface FollowInput {
  /** The UID of what a key names in this feed: always the same, and in no other feed. */
  readonly uidOf: (key: string) => string;
  /** All that was ever said in this feed. */
  readonly before: readonly CalendarItem[];
  /** All there is now that ends after `since`. */
  readonly entries: readonly KeyedEntry[];
  /** ISO; what ended earlier is left out of the feed, and not cancelled for it. */
  readonly since: string;
  readonly now: string;
  readonly zone: string;
}

/**
 * What a feed says after things have moved: an entry that clients would show differently gets the
 * next SEQUENCE, one that is gone is said to be cancelled, and one that comes back is the same again
 * with a higher number.
 */
export function followed({ uidOf, before, entries, since, now, zone }: FollowInput): Followed {
  const known = new Map(before.map((item) => [item.uid, item]));
  const from = Date.parse(since);
  const items: CalendarItem[] = [];
  const changed: CalendarItem[] = [];
  const say = (item: CalendarItem, isNews: boolean): void => {
    items.push(item);
    if (isNews) changed.push(item);
  };
  for (const { key, entry } of entries) {
    if (endOf(entry, zone) < from) continue;
    const uid = uidOf(key);
    const said = known.get(uid);
    known.delete(uid);
    const mark = markOf(entry);
    if (said?.mark === mark && !said.cancelled) say(said, false);
    else {
      const sequence = said === undefined ? 0 : said.sequence + 1;
      say({ uid, mark, sequence, entry, cancelled: false, changedAt: now }, true);
    }
  }
  for (const said of known.values()) {
    if (said.cancelled) {
      if (Date.parse(said.changedAt) >= from) say(said, false);
    } else if (endOf(said.entry, zone) >= from) {
      say({ ...said, sequence: said.sequence + 1, cancelled: true, changedAt: now }, true);
    }
  }
  return { shown: items.sort(byTime), changed };
}

const startOf = ({ entry: { time } }: CalendarItem): string =>
  time.kind === 'span' ? time.start : time.from;

function byTime(a: CalendarItem, b: CalendarItem): number {
  const [one, other] = [startOf(a), startOf(b)];
  if (one !== other) return one < other ? -1 : 1;
  return a.uid < b.uid ? -1 : 1;
}
