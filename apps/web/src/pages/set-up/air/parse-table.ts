import { instantOf } from '../../../show/time.ts';

/** A line of a logger's or weather service's table. */
export interface Measured {
  /** ms since the epoch. */
  readonly at: number;
  readonly celsius: number;
  /** Percent. */
  readonly humidity: number | null;
}

export interface TableFault {
  /** From 1, as editors count. */
  readonly line: number;
  readonly kind: 'time' | 'temperature' | 'humidity';
  /** What stands there. */
  readonly text: string;
}

export interface ParsedTable {
  readonly rows: readonly Measured[];
  readonly faults: readonly TableFault[];
}

interface Reading {
  readonly zone: string;
  readonly isFahrenheit: boolean;
}

const cells = (line: string): string[] => {
  const separator = line.includes('\t') ? '\t' : line.includes(';') ? ';' : ',';
  return line.split(separator).map((cell) =>
    cell
      .trim()
      .replace(/^"(.*)"$/, '$1')
      .trim(),
  );
};

const numberIn = (cell: string | undefined): number | null => {
  const plain = (cell ?? '').replace(/[°%]\s*[CF]?$/i, '').trim();
  return /^[+-]?\d+([.,]\d+)?$/.test(plain) ? Number(plain.replace(',', '.')) : null;
};

const dateOnly = /^(\d{4}-\d{2}-\d{2}|\d{1,2}[./]\d{1,2}[./]\d{4})$/;
const timeOnly = /^\d{1,2}:\d{2}(:\d{2})?$/;

/** A moment with its offset, or the wall clock of the yard; days before months. */
function momentIn(text: string, zone: string): number | null {
  const iso =
    /^(\d{4}-\d{2}-\d{2})[T ](\d{1,2}):(\d{2})(?::\d{2}(?:\.\d+)?)?\s*(Z|[+-]\d{2}:?\d{2})?$/i;
  const found = iso.exec(text);
  const local = /^(\d{1,2})[./](\d{1,2})[./](\d{4})[T ,]+(\d{1,2}):(\d{2})(?::\d{2})?$/.exec(text);
  if (found !== null) {
    const [, date, hour, minute] = found;
    const offset = found.at(4);
    const wall = `${date}T${hour.padStart(2, '0')}:${minute}`;
    if (offset === undefined) return wallClock(wall, zone);
    const zoned = offset.toUpperCase() === 'Z' ? 'Z' : offset.replace(/^(.\d{2}):?/, '$1:');
    return known(Date.parse(`${wall}:00${zoned}`));
  }
  if (local !== null) {
    const [, d, m, y, hour, minute] = local;
    return wallClock(
      `${y}-${m.padStart(2, '0')}-${d.padStart(2, '0')}T${hour.padStart(2, '0')}:${minute}`,
      zone,
    );
  }
  return null;
}

const known = (at: number): number | null => (Number.isFinite(at) ? at : null);

function wallClock(local: string, zone: string): number | null {
  const asUtc = Date.parse(`${local}:00Z`);
  // `Date` takes the 31st of February for the 3rd of March.
  if (!Number.isFinite(asUtc) || new Date(asUtc).toISOString().slice(0, 16) !== local) return null;
  return Date.parse(instantOf(local, zone));
}

/** Which column holds what: by the names in a heading, else time, temperature, humidity. */
function columnsOf(heading: readonly string[] | null): {
  readonly celsius: number | null;
  readonly humidity: number | null;
} {
  const at = (pattern: RegExp): number | null => {
    const index = heading?.findIndex((cell) => pattern.test(cell)) ?? -1;
    return index < 0 ? null : index;
  };
  return { celsius: at(/temp|celsius|fahrenheit|°/i), humidity: at(/hum|\brh\b|feucht|%/i) };
}

/** Reads what a logger writes: separated by tabs, semicolons or commas, with or without a heading. */
export function parseTable(text: string, { zone, isFahrenheit }: Reading): ParsedTable {
  const lines = text.split(/\r\n|\r|\n/);
  const first = lines.findIndex((line) => line.trim() !== '');
  const heading = first < 0 ? [''] : cells(lines[first]);
  const hasHeading = first >= 0 && !/\d/.test(heading[0]);
  const columns = columnsOf(hasHeading ? heading : null);
  const rows: Measured[] = [];
  const faults: TableFault[] = [];
  lines.forEach((line, index) => {
    if (line.trim() === '' || (hasHeading && index === first)) return;
    const row = cells(line);
    const [date, time = ''] = row;
    const isSplit = dateOnly.test(date) && timeOnly.test(time);
    const moment = isSplit ? `${date} ${time}` : date;
    const next = isSplit ? 2 : 1;
    const warmth = row.at(columns.celsius ?? next);
    // What a heading does not call humidity may be anything: a battery's charge, say.
    const damp = hasHeading
      ? columns.humidity === null
        ? undefined
        : row.at(columns.humidity)
      : row.at(next + 1);
    const fault = (kind: TableFault['kind'], cell: string | undefined): void => {
      faults.push({ line: index + 1, kind, text: (cell ?? '').slice(0, 60) });
    };
    const at = momentIn(moment, zone);
    const degrees = numberIn(warmth);
    const humidity = numberIn(damp);
    const isDampWrong =
      damp !== undefined && damp !== '' && (humidity === null || humidity < 0 || humidity > 100);
    if (at === null) fault('time', moment);
    else if (degrees === null) fault('temperature', warmth);
    else if (isDampWrong) fault('humidity', damp);
    else {
      const celsius = isFahrenheit ? (degrees - 32) / 1.8 : degrees;
      rows.push({ at, celsius: Math.round(celsius * 100) / 100, humidity });
    }
  });
  return { rows: rows.sort((a, b) => a.at - b.at), faults };
}
