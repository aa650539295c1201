import { DomainError } from '#kernel/error.ts';

/**
 * Offsets of IANA zones, read from the runtime's own time-zone data through Intl.
 * Instants are minutes since 1970-01-01T00:00Z; offsets are minutes east of UTC and
 * whole ones: the last offset with seconds in it (Liberia) ended in 1972.
 */
export type Zone = string;

const formats = new Map<Zone, Intl.DateTimeFormat>();

function formatOf(zone: Zone): Intl.DateTimeFormat {
  const known = formats.get(zone);
  if (known !== undefined) return known;
  try {
    const made = new Intl.DateTimeFormat('en-US', {
      timeZone: zone,
      calendar: 'iso8601',
      numberingSystem: 'latn',
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
    });
    formats.set(zone, made);
    return made;
  } catch {
    throw new DomainError('input.field', `"${zone}" is not a time zone`, {
      cure: 'Use an IANA name such as Europe/London.',
    });
  }
}

export function isZone(zone: string): boolean {
  try {
    formatOf(zone);
    return true;
  } catch {
    return false;
  }
}

function readOffset(zone: Zone, instant: number): number {
  const field = { year: 0, month: 1, day: 1, hour: 0, minute: 0 };
  for (const part of formatOf(zone).formatToParts(instant * 60_000)) {
    if (part.type in field) field[part.type as keyof typeof field] = Number(part.value);
  }
  const wall = Date.UTC(field.year, field.month - 1, field.day, field.hour, field.minute);
  return wall / 60_000 - instant;
}

/** Offset in force at an instant (epoch minutes, integer). */
export type OffsetAt = (instant: number) => number;

const readers = new Map<Zone, OffsetAt>();
const BLOCK = 720;

/**
 * The zone's offset function. Asking Intl is slow, so offsets are remembered at the ends
 * of half-day blocks, and a block whose ends agree is taken to have one offset throughout:
 * no zone has ever changed its offset and changed it back within twelve hours.
 */
export function offsetsOf(zone: Zone): OffsetAt {
  const known = readers.get(zone);
  if (known !== undefined) return known;
  formatOf(zone);
  const edges = new Map<number, number>();
  const edge = (block: number): number => {
    const stored = edges.get(block);
    if (stored !== undefined) return stored;
    const read = readOffset(zone, block * BLOCK);
    edges.set(block, read);
    return read;
  };
  const reader: OffsetAt = (instant) => {
    const block = Math.floor(instant / BLOCK);
    const before = edge(block);
    return before === edge(block + 1) ? before : readOffset(zone, instant);
  };
  readers.set(zone, reader);
  return reader;
}
