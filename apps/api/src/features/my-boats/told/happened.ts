import { defects, snagKindSchema } from '#live/rework/defects.ts';
import type { AskedChange, DoneTask, FoundSnag } from '../history.store.ts';
import type { HistoryItem } from '../my-boats.contract.ts';
import { dateOf } from '../owner-when.ts';

/** What was finished, the work of a day together; at its last moment. */
export function workItems(tasks: readonly DoneTask[], timeZone: string): HistoryItem[] {
  const done = tasks.flatMap(({ finishedAt, name, part }) =>
    finishedAt === null ? [] : [{ at: finishedAt, words: `${name}, ${part.name}` }],
  );
  const days = Map.groupBy(done, ({ at }) => dateOf(at, timeZone));
  return [...days].map(([date, ofDay]) => ({
    at: ofDay[ofDay.length - 1].at.toISOString(),
    date,
    kind: 'work',
    words: ofDay.map(({ words }) => `Done: ${words}.`),
    why: [],
    subjectId: null,
  }));
}

export const snagItems = (snags: readonly FoundSnag[], timeZone: string): HistoryItem[] =>
  snags.map(({ id, kind, words, part, foundAt, state }) => ({
    at: foundAt.toISOString(),
    date: dateOf(foundAt, timeZone),
    kind: 'snag',
    words: [`Found on ${part.name}: ${defects[snagKindSchema.parse(kind)].name}. ${words}`],
    why: [snagStates[state] ?? ''].filter((line) => line !== ''),
    subjectId: id,
  }));

const snagStates: Readonly<Partial<Record<string, string>>> = {
  accepted: 'It is being put right.',
  settled: 'It has been put right.',
  dismissed: 'It was looked at, and is left as it is.',
};

interface Reading {
  readonly since: Date;
  /** The owner who reads. */
  readonly memberId: string;
  readonly timeZone: string;
}

/** That a change was asked for, and what was decided: two moments of one change. */
export function changeItems(
  changes: readonly AskedChange[],
  { since, memberId, timeZone }: Reading,
): HistoryItem[] {
  return changes.flatMap((change) => {
    const { id, words, createdAt, decidedAt, raisedById, decidedById, state, note } = change;
    const item = (at: Date, said: string, why: readonly string[]): HistoryItem[] =>
      at < since
        ? []
        : [
            {
              at: at.toISOString(),
              date: dateOf(at, timeZone),
              kind: 'change',
              words: [said],
              why: [...why],
              subjectId: id,
            },
          ];
    const who = (memberOf: string | null): string => (memberOf === memberId ? 'You' : 'The yard');
    const verb = decisions[state];
    return [
      ...item(createdAt, `${who(raisedById)} asked for a change: ${words}`, []),
      ...(decidedAt === null || verb === undefined
        ? []
        : item(decidedAt, `${who(decidedById)} ${verb} the change: ${words}`, note ? [note] : [])),
    ];
  });
}

const decisions: Readonly<Partial<Record<string, string>>> = {
  accepted: 'accepted',
  declined: 'declined',
  withdrawn: 'withdrew',
};
