import { DomainError } from '#kernel/error.ts';

/** Outdoor temperature at an instant (ISO 8601 with offset); a table is ascending in time, usually hourly. */
export interface OutdoorReading {
  readonly at: string;
  readonly celsius: number;
}

/** Outdoor temperature over a plan's minutes; `known` is false where the table does not say. */
export interface Outdoor {
  celsius(minute: number): number;
  known(minute: number): boolean;
}

const DAY = 1440;
/** Readings further apart than this leave what is between them assumed. */
const WIDEST = 60;

/**
 * A table read over the minutes of a plan (`originMs`: epoch milliseconds of minute 0):
 * linear between readings; beyond either end the same hour of the nearest day in the table,
 * or the end itself where the table is shorter than a day. Throws `input.field` for an empty
 * table, an unreadable instant, or one out of order.
 */
export function outdoorOf(table: readonly OutdoorReading[], originMs: number): Outdoor {
  if (table.length === 0) {
    throw new DomainError('input.field', 'The outdoor table is empty', {
      cure: 'Import hourly outdoor temperatures for the yard, or heat the space.',
    });
  }
  const minutes = table.map((reading) => (Date.parse(reading.at) - originMs) / 60_000);
  minutes.forEach((minute, k) => {
    if (Number.isNaN(minute) || (k > 0 && minute <= minutes[k - 1])) {
      throw new DomainError(
        'input.field',
        `Outdoor reading ${k + 1} ("${table[k].at}") is out of order`,
        {
          cure: 'Give ISO instants in ascending order, each once.',
        },
      );
    }
  });
  const last = minutes.length - 1;
  const [begin, end] = [minutes[0], minutes[last]];

  const inside = (minute: number): number => {
    if (minute > end) return minute - Math.ceil((minute - end) / DAY) * DAY;
    if (minute < begin) return minute + Math.ceil((begin - minute) / DAY) * DAY;
    return minute;
  };
  /** The last reading at or before a minute of the table that has one after it. */
  const before = (minute: number): number => {
    let low = 0;
    let high = last;
    while (high - low > 1) {
      const mid = (low + high) >>> 1;
      if (minutes[mid] <= minute) low = mid;
      else high = mid;
    }
    return low;
  };
  return {
    celsius(minute) {
      const at = Math.max(begin, Math.min(end, inside(minute)));
      if (last === 0) return table[0].celsius;
      const k = before(at);
      const share = (at - minutes[k]) / (minutes[k + 1] - minutes[k]);
      return table[k].celsius + share * (table[k + 1].celsius - table[k].celsius);
    },
    known(minute) {
      if (minute < begin || minute > end) return false;
      if (minute === end) return true;
      const k = before(minute);
      return minute === minutes[k] || minutes[k + 1] - minutes[k] <= WIDEST;
    },
  };
}
