import { DomainError, type Fault } from '#kernel/error.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { yardFaults } from '#planning/yard/check/check.ts';
import type { Yard } from '#planning/yard/yard.ts';
import type { Tx } from '../../platform/database/database.ts';

/** A yard as it would be after a change, and where in it the changed record stands. */
export interface Changed {
  readonly yard: Yard;
  /** As in the yard file: `people[2]`; empty for the whole. */
  readonly path: string;
}

/**
 * Refuses a change that would make no sense in its yard, before it is written, with paths into
 * the record that was sent. What is wrong elsewhere is not the caller's matter here: a yard is
 * set up in any order, and planning tells what is still missing.
 */
export async function assertFits(
  tx: Tx,
  yardId: string,
  change: (yard: Yard) => Changed,
): Promise<void> {
  refuseFaults(change(await loadYard(tx, yardId)));
}

export function refuseFaults({ yard, path }: Changed): void {
  const faults = yardFaults(yard).flatMap((fault) => {
    if (path === '') return [fault];
    if (!fault.path.startsWith(path) || !['.', '[', ''].includes(fault.path.charAt(path.length)))
      return [];
    return [{ ...fault, path: fault.path.slice(path.length).replace(/^\./, '') }];
  });
  refuse(faults);
}

/** Throws with all of them, the first as the message; nothing where there are none. */
export function refuse(faults: readonly Fault[]): void {
  const [first] = faults;
  if (faults.length === 0) return;
  const where = first.path === '' ? '' : `${first.path}: `;
  throw new DomainError(first.code, `${where}${first.message}`, { cure: first.cure, faults });
}

type Collection =
  | 'skills'
  | 'people'
  | 'spaces'
  | 'tools'
  | 'stocks'
  | 'barriers'
  | 'slotLists'
  | 'deliveries'
  | 'materials'
  | 'fabrics'
  | 'observations'
  | 'procedures'
  | 'boats';

/** The yard with the record in place of the one of its id, or as a further one. */
export function withRecord<K extends Collection>(
  yard: Yard,
  key: K,
  record: Yard[K][number],
): Changed {
  const records = placed<{ readonly id: string }>(yard[key], record);
  const index = records.findIndex(({ id }) => id === record.id);
  return { yard: { ...yard, [key]: records }, path: `${key}[${String(index)}]` };
}

export function placed<T extends { readonly id: string }>(records: readonly T[], record: T): T[] {
  return records.some(({ id }) => id === record.id)
    ? records.map((other) => (other.id === record.id ? record : other))
    : [...records, record];
}
