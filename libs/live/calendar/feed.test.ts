import { describe, expect, it } from 'vitest';
import { instantOf } from '#calendar/local-time.ts';
import { offsetsOf } from '#calendar/zone.ts';
import type { CalendarEntry, CalendarItem } from './entry.ts';
import { feedText } from './feed.ts';
import { readCalendar } from './testing/read-calendar.ts';

const entry = (more: Partial<CalendarEntry> = {}): CalendarEntry => ({
  summary: 'Coat two, Hatch (Gull)',
  description: 'Planned.',
  location: 'Shop',
  time: { kind: 'span', start: '2026-11-03T09:00:00.000Z', end: '2026-11-03T10:30:00.000Z' },
  busy: true,
  alarms: [],
  ...more,
});

let count = 0;
const item = (
  more: Partial<CalendarEntry> = {},
  said: Partial<CalendarItem> = {},
): CalendarItem => ({
  uid: `uid-${String((count += 1))}`,
  mark: 'm',
  sequence: 0,
  entry: entry(more),
  cancelled: false,
  changedAt: '2026-11-01T12:00:00.000Z',
  ...said,
});

const text = (
  items: readonly CalendarItem[],
  zone = 'Europe/London',
  name = 'Work of Ada',
): string =>
  feedText({
    id: '00000000-0000-4000-8000-000000000001',
    name,
    description: 'Small yard',
    zone,
    items,
    madeAt: '2026-10-01T08:00:00.000Z',
  });

describe('a feed', () => {
  it('is what two parsers read alike', () => {
    const alarms = [{ at: '2026-11-03T08:45:00.000Z', words: 'Window opens' }];
    const said = { sequence: 3, uid: 'a' };
    const { events, ...head } = readCalendar(text([item({ alarms }, said)]));
    expect(head).toMatchObject({ name: 'Work of Ada', zone: 'Europe/London', refresh: 'PT15M' });
    expect(events).toEqual([
      {
        uid: 'a',
        sequence: 3,
        summary: 'Coat two, Hatch (Gull)',
        description: 'Planned.',
        location: 'Shop',
        cancelled: false,
        start: '2026-11-03T09:00:00.000Z',
        end: '2026-11-03T10:30:00.000Z',
        stamp: '2026-11-01T12:00:00Z',
        alarms,
      },
    ]);
  });

  it('says days as days, and what is cancelled as cancelled, without alarms', () => {
    const alarms = [{ at: '2026-11-03T08:45:00.000Z', words: 'Window opens' }];
    const day = { kind: 'days', from: '2026-12-04', until: '2026-12-05' } as const;
    const feed = text([item({ time: day }), item({ alarms }, { cancelled: true })]);
    const { events } = readCalendar(feed);
    expect(events[0]).toMatchObject({ start: '2026-12-04', end: '2026-12-05', cancelled: false });
    expect(events[1]).toMatchObject({ cancelled: true, alarms: [] });
    expect(feed).toContain('TRANSP:TRANSPARENT');
  });

  it('has a component even when it says nothing', () => {
    expect(readCalendar(text([])).events).toEqual([]);
  });

  it.each([
    ['Sole; forward, port \\ starboard', undefined],
    ['Fairing\nEND:VEVENT\nBEGIN:VEVENT', undefined],
    ['Fairing\r\nATTENDEE:mailto:x@y.example', 'Fairing\nATTENDEE:mailto:x@y.example'],
    ['Bulkhead “Ålesund” \u{1F6A4} '.repeat(12).trim(), undefined],
    ['\u202Efdp.exe', undefined],
    ['a\u2028b\u0085c', 'a\nb\nc'],
    ['nul\0 bell\u0007 del\u007F tab\t.', 'nul bell del tab\t.'],
    ['half \uD83D of a character', 'half  of a character'],
    ['{"json": [1, 2]} <script>alert(1)</script> %0D%0AX-EVIL:1', undefined],
  ])('keeps the name %j to its place', (name, read) => {
    const feed = text(
      [item({ summary: name, location: name, description: name })],
      'Europe/London',
      name,
    );
    const calendar = readCalendar(feed);
    const [event] = calendar.events;
    expect(calendar.events).toHaveLength(1);
    expect(event).toMatchObject({
      summary: read ?? name,
      location: read ?? name,
      description: read ?? name,
    });
    expect(calendar.name).toBe(read ?? name);
  });
});

describe('clock changes', () => {
  const zones = ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Tokyo'];

  it.each(zones)('are told of %s as the zone data has them', (zone) => {
    const { offsetAt } = readCalendar(text([item()], zone));
    const real = offsetsOf(zone);
    for (const noon of ['2026-01-15', '2026-03-20', '2026-06-15', '2026-10-10', '2026-12-20']) {
      expect(offsetAt(`${noon}T12:00:00`)).toBe(real(instantOf(`${noon}T12:00:00Z`)));
    }
  });

  it('keep each instant where it is, the hour that comes twice and all', () => {
    // London: 2026-10-25 01:00 UTC; New York: 2026-11-01 06:00 UTC.
    for (const [zone, turn] of [
      ['Europe/London', '2026-10-25T01:00:00.000Z'],
      ['America/New_York', '2026-11-01T06:00:00.000Z'],
    ] as const) {
      const starts = [-30, 30, 90].map((minutes) => new Date(Date.parse(turn) + minutes * 60_000));
      const feed = text(
        starts.map((start) =>
          item({
            time: {
              kind: 'span',
              start: start.toISOString(),
              end: new Date(start.getTime() + 3_600_000).toISOString(),
            },
          }),
        ),
        zone,
      );
      const { events, offsetAt } = readCalendar(feed);
      expect(events.map(({ start }) => start)).toEqual(starts.map((start) => start.toISOString()));
      const [before, after] = [
        offsetsOf(zone)(Date.parse(turn) / 60_000 - 1),
        offsetsOf(zone)(Date.parse(turn) / 60_000),
      ];
      expect(after).toBe(before - 60);
      // The first two have the same time on the wall, an hour apart.
      const wall = (start: Date, offset: number): number =>
        (start.getTime() / 60_000 + offset) % 1440;
      expect(wall(starts[0], before)).toBe(wall(starts[1], after));
      const day = turn.slice(0, 10);
      expect(offsetAt(`${day}T00:30:00`)).toBe(before);
      expect(offsetAt(`${day}T03:30:00`)).toBe(after);
    }
  });
});
