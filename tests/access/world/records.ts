import type { Subject } from '#access/rule.ts';
import type { YardInput } from '#planning/yard/yard.ts';
import type { Named } from '../outcome.ts';

/** `of`: the member or account it belongs to; null: everybody's alike. */
export interface Kept {
  readonly id: string;
  readonly of: string | null;
}

/** What there is of each kind. */
export type Records = ReadonlyMap<Subject, readonly Kept[]>;

/** What a yard file holds, boats and what hangs on them with their owners. */
export function recordsOf(file: YardInput): [Subject, Kept[]][] {
  const boats = (file.boats ?? []).map((boat) => ({ ...boat, of: boat.owner ?? null }));
  const refits = boats.flatMap(({ refits = [], of }) => refits.map((refit) => ({ ...refit, of })));
  const parts = refits.flatMap(({ parts = [], of }) => parts.map((part) => ({ ...part, of })));
  const shared: [Subject, readonly { readonly id: string }[] | undefined][] = [
    ['skill', file.skills],
    ['person', file.people],
    ['space', file.spaces],
    ['tool', file.tools],
    ['stock', file.stocks],
    ['barrier', file.barriers],
    ['slot-list', file.slotLists],
    ['delivery', file.deliveries],
    ['material', file.materials],
    ['fabric', file.fabrics],
    ['reading', file.readings],
    ['observation', file.observations],
    ['procedure', file.procedures],
  ];
  const owned: [Subject, readonly Kept[]][] = [
    ['boat', boats],
    ['refit', refits],
    ['part', parts],
  ];
  return [
    ...shared.map(([kind, all = []]): [Subject, Kept[]] => [
      kind,
      all.map(({ id }) => ({ id, of: null })),
    ]),
    ...owned.map(([kind, all]): [Subject, Kept[]] => [kind, all.map(({ id, of }) => ({ id, of }))]),
  ];
}

/** Those of the records that are, to somebody, what a call is to name. */
function fitting(
  kept: readonly Kept[],
  record: 'own' | 'neighbour’s',
  whose: string | null,
): Kept[] {
  const own = kept.filter(({ of }) => of === whose);
  if (record === 'neighbour’s') return kept.filter(({ of }) => of !== null && of !== whose);
  // Whoever owns none reaches those of others, or nothing: that is the table's to say.
  return own.length > 0 ? own : [...kept];
}

/** Ids of what never was, like those of what is. */
const uuid = '00000000-0000-4000-8000-000000000000';
export const missingId = (like: string): string =>
  /^[0-9a-f-]{36}$/.test(like) ? uuid : 'nothing-here';

/**
 * Hands out ids by kind and by whose they are. What a call may take away comes from the end of
 * the list, each once; the first stays for everybody else.
 */
export function handOut(): (
  records: Records,
  kind: Subject,
  record: Exclude<Named, 'nothing'>,
  whose: string | null,
  isTaken: boolean,
) => string | undefined {
  const taken = new Set<string>();
  return (records, kind, record, whose, isTaken) => {
    const kept = records.get(kind) ?? [];
    if (kept.length === 0) return undefined;
    if (record === 'missing') return missingId(kept[0].id);
    const all = record === 'other’s' ? [...kept] : fitting(kept, record, whose);
    if (!isTaken) return all.at(0)?.id;
    const last = all.slice(1).findLast(({ id }) => !taken.has(id));
    if (!last) throw new Error(`no ${kind} is left to take away`);
    taken.add(last.id);
    return last.id;
  };
}
