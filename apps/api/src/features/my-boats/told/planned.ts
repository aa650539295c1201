import type { BoatDifference } from '#live/difference/boats.ts';
import { differenceOf } from '#live/difference/difference.ts';
import type { TaskDifference } from '#live/difference/tasks.ts';
import { days as daysInWords } from '#live/words/span.ts';
import type { OwnPublishing } from '#persistence/plan/own-publishings.ts';
import { inWords } from '#planning/decode/reading/moments.ts';
import type { PlanSheet, When } from '#planning/decode/sheet.ts';
import type { HistoryFinish, HistoryItem } from '../my-boats.contract.ts';
import { dateOf } from '../owner-when.ts';

interface Of {
  readonly boatId: string;
  readonly since: Date;
  readonly timeZone: string;
}

/** Of more pieces of work that another day has, only the number is told. */
const mostTasks = 12;

/** What each publishing changed for the boat against the one before; nothing of those that changed nothing. */
export function planItems(
  publishings: readonly OwnPublishing[],
  { boatId, since, timeZone }: Of,
): HistoryItem[] {
  return publishings.flatMap((next, at) => {
    if (next.publishedAt < since) return [];
    const before = at === 0 ? null : publishings[at - 1].sheet;
    const words = changeWords(before, next, boatId, timeZone);
    if (words.length === 0) return [];
    return [
      {
        at: next.publishedAt.toISOString(),
        date: dateOf(next.publishedAt, timeZone),
        kind: 'plan',
        words,
        why: whyOf(next),
        subjectId: null,
      },
    ];
  });
}

function whyOf({ causes, others }: OwnPublishing): string[] {
  const told = [...new Set(causes)];
  if (!others) return told;
  return [
    ...told,
    told.length === 0 ? 'The reason lies elsewhere in the yard.' : 'And other reasons in the yard.',
  ];
}

function changeWords(
  before: PlanSheet | null,
  { sheet, publishedAt }: OwnPublishing,
  boatId: string,
  timeZone: string,
): string[] {
  if (before === null) {
    return sheet.boats
      .filter((boat) => boat.boatId === boatId)
      .map(({ refit, finish }) => `${refit}: planned to be finished ${inWords(finish, timeZone)}.`);
  }
  const { boats, tasks } = differenceOf(before, sheet, { now: publishedAt.toISOString() });
  const ofDay = tasks.filter((task) => task.boatId === boatId && hasOtherDay(task));
  const more = ofDay.length - mostTasks;
  return [
    ...boats.filter((boat) => boat.boatId === boatId).flatMap((boat) => movedWords(boat, timeZone)),
    ...ofDay.slice(0, mostTasks).map((task) => taskWords(task, timeZone)),
    ...(more > 0 ? [`And ${String(more)} more on other days than before.`] : []),
  ];
}

const dayOf = ({ local }: When): string => local.slice(0, 10);

/** Owners reckon in days: what moves within its day is no news. */
const hasOtherDay = ({ from, to }: TaskDifference): boolean =>
  from === null || to === null || dayOf(from) !== dayOf(to);

/** `Tue 3 Nov`. */
const dayInWords = (when: When, timeZone: string): string =>
  inWords(when, timeZone).slice(0, -' 07:30'.length);

function taskWords({ task, part, from, to }: TaskDifference, timeZone: string): string {
  const what = `${task}, ${part}`;
  if (to === null) return `${what}: not done any more.`;
  if (from === null) return `${what}: added, ${dayInWords(to, timeZone)}.`;
  return `${what}: ${dayInWords(to, timeZone)} instead of ${dayInWords(from, timeZone)}.`;
}

function movedWords(boat: BoatDifference, timeZone: string): string[] {
  const { refit, before, after, minutes, days } = boat;
  if (after === null) return [`${refit}: not planned any more.`];
  if (before === null) return [`${refit}: planned to be finished ${inWords(after, timeZone)}.`];
  if (minutes === 0 || days === null) return [];
  const much =
    days === 0
      ? 'on the same day'
      : `${daysInWords(Math.abs(days))} ${days > 0 ? 'later' : 'earlier'}`;
  return [
    `${refit}: finished ${inWords(after, timeZone)} instead of ${inWords(before, timeZone)}, ${much}.`,
  ];
}

/** From the plan of then to the plan of now, refit by refit. */
export function finishesMoved(
  publishings: readonly OwnPublishing[],
  { boatId, since, timeZone }: Of,
): HistoryFinish[] {
  if (publishings.length === 0) return [];
  const now = publishings[publishings.length - 1];
  const [first] = publishings;
  const then = first.publishedAt < since ? first.sheet : { ...now.sheet, boats: [], tasks: [] };
  const { boats } = differenceOf(then, now.sheet, { now: now.publishedAt.toISOString() });
  return boats
    .filter((boat) => boat.boatId === boatId)
    .map((boat) => {
      const { refitId, refit, before, after, days } = boat;
      const moved = movedWords(boat, timeZone).at(0);
      const same =
        after === null ? '' : `${refit}: finished ${inWords(after, timeZone)}, as before.`;
      return { refitId, refit, before, after, days, words: moved ?? same };
    });
}
