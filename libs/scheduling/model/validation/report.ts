import { fault, type Fault } from '#kernel/error.ts';
import type { ErrorCode } from '#kernel/codes.ts';

/** Collects faults; every method returns whether the value was right. */
export interface Report {
  readonly faults: readonly Fault[];
  add(code: ErrorCode, path: string, message: string, value: unknown, cure?: string): void;
  /** A whole number from `least` to `most`. */
  whole(path: string, value: number, least?: number, most?: number): boolean;
  /** An index into a list of `length` records. */
  index(path: string, value: number, length: number, of: string): boolean;
}

export function report(): Report {
  const faults: Fault[] = [];
  const add: Report['add'] = (code, path, message, value, cure) => {
    faults.push(fault(code, path, message, cure === undefined ? { value } : { value, cure }));
  };
  return {
    faults,
    add,
    whole: (path, value, least = -Infinity, most = Infinity) => {
      if (Number.isSafeInteger(value) && value >= least && value <= most) return true;
      const low = least === -Infinity ? '' : ` from ${least}`;
      const high = most === Infinity ? '' : ` to ${most}`;
      const wanted = `a whole number${low === '' && high !== '' ? ' up' : low}${high}`;
      add('input.field', path, `${value} is not ${wanted}`, value, `Give ${wanted}.`);
      return false;
    },
    index: (path, value, length, of) => {
      if (Number.isSafeInteger(value) && value >= 0 && value < length) return true;
      const cure = length === 0 ? `Add the ${of}.` : `Use an index from 0 to ${length - 1}.`;
      add('yard.reference', path, `There is no ${of} ${value}`, value, cure);
      return false;
    },
  };
}

/** Reports every id that an earlier record of the list has. */
export function distinctIds(to: Report, path: string, records: readonly { id: string }[]): void {
  const seen = new Map<string, number>();
  records.forEach(({ id }, i) => {
    const first = seen.get(id);
    if (first === undefined) seen.set(id, i);
    else
      to.add(
        'yard.duplicate',
        `${path}[${i}].id`,
        `${path}[${first}] has the id ${id} already`,
        id,
      );
  });
}

/** Indices into a list of `length` records, none of them twice. */
export function distinct(
  to: Report,
  path: string,
  indices: readonly number[],
  length: number,
  of: string,
): void {
  indices.forEach((value, i) => {
    to.index(`${path}[${i}]`, value, length, of);
    if (indices.indexOf(value) < i)
      to.add('yard.duplicate', `${path}[${i}]`, `The ${of} is named twice`, value);
  });
}
