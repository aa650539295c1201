import type { ErrorCode } from '#kernel/codes.ts';
import { fault, type Fault } from '#kernel/error.ts';
import { pathOf, show } from '../path.ts';

/** Collects faults; the path is given as segments. */
export interface Report {
  readonly faults: Fault[];
  add(
    code: ErrorCode,
    path: readonly PropertyKey[],
    message: string,
    more?: { value?: unknown; cure?: string },
  ): void;
}

export function report(): Report {
  const faults: Fault[] = [];
  return {
    faults,
    add: (code, path, message, more = {}) => {
      faults.push(fault(code, pathOf(path), message, more));
    },
  };
}

interface Named {
  readonly id: string;
}

/** A list of ids short enough for a message. */
export function listed(ids: readonly string[]): string {
  if (ids.length === 0) return 'none';
  const shown = ids.slice(0, 8).join(', ');
  return ids.length > 8 ? `${shown} and ${String(ids.length - 8)} more` : shown;
}

/** Adds a fault for each id that stands twice. */
export function uniqueIds(
  to: Report,
  what: string,
  rows: readonly { row: Named; path: readonly PropertyKey[] }[],
): void {
  const first = new Map<string, readonly PropertyKey[]>();
  for (const { row, path } of rows) {
    const earlier = first.get(row.id);
    if (earlier === undefined) first.set(row.id, path);
    else {
      to.add(
        'yard.duplicate',
        [...path, 'id'],
        `the id ${show(row.id)} is that of another ${what} too (${pathOf(earlier)})`,
        {
          value: row.id,
        },
      );
    }
  }
}

/** Adds a fault where an id names nothing; says what there is. */
export function known(
  to: Report,
  what: string,
  value: string,
  ids: ReadonlyMap<string, unknown>,
  path: readonly PropertyKey[],
): boolean {
  if (ids.has(value)) return true;
  to.add(
    'yard.reference',
    path,
    `there is no ${what} ${show(value)}; there are: ${listed([...ids.keys()])}`,
    {
      value,
      cure: `Use the id of a ${what} that the yard has, or add the ${what}.`,
    },
  );
  return false;
}

export const byId = <T extends Named>(rows: readonly T[]): ReadonlyMap<string, T> =>
  new Map(rows.map((row) => [row.id, row]));
