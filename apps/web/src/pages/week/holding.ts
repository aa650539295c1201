import type { Now } from './lives.ts';
import type { Boat, Model, Opening, Work } from './model.ts';

export interface Pressing {
  readonly work: Work;
  readonly window: Opening;
}

/** Whether the week holds: what keeps it from doing so, and what soon may. */
export interface Holding {
  readonly late: readonly Boat[];
  /** Should have begun by now. */
  readonly behind: readonly Work[];
  /** Begun, and should be over by now. */
  readonly overdue: readonly Work[];
  /** Worked on before its time; that alone does no harm. */
  readonly ahead: readonly Work[];
  /** Windows that by the plan shut within a day, whose follow-up has not begun; the first to shut first. */
  readonly shutting: readonly Pressing[];
}

const day = 86_400_000;
/** Nobody begins on the minute. */
const graceMs = 15 * 60_000;

/** Behind its plan by now: not begun though it should have, or not over though it should be. */
export type Lag = 'behind' | 'overdue';

/** Null: it is not, or the plan is one that nobody works to. */
export function lagOf(
  { from, until }: Pick<Work, 'from' | 'until'>,
  { state, startedAt }: Pick<Now, 'state' | 'startedAt'>,
  { isPublished }: Pick<Model['picture'], 'isPublished'>,
  moment: number,
): Lag | null {
  if (!isPublished) return null;
  if (isToBegin({ state, startedAt })) return from + graceMs < moment ? 'behind' : null;
  const isLeft = state === 'working' || state === 'paused' || state === 'claimed';
  return isLeft && until + graceMs < moment ? 'overdue' : null;
}

/** What was put aside and is claimed anew has begun. */
const isToBegin = ({ state, startedAt }: Pick<Now, 'state' | 'startedAt'>): boolean =>
  state === 'waiting' || (state === 'claimed' && startedAt === null);

export function holdingOf(
  { picture, works, byId }: Model,
  nowOf: (taskId: string) => Now | undefined,
  moment: number,
): Holding {
  const lifeOf = (id: string): Pick<Now, 'state' | 'startedAt'> =>
    nowOf(id) ?? { state: 'dropped', startedAt: null };
  const live = picture.isPublished ? works : [];
  const lagging = (wanted: Lag): Work[] =>
    works
      .filter((one) => lagOf(one, lifeOf(one.task.id), picture, moment) === wanted)
      .sort((a, b) => a.from - b.from);
  const shutting = live.flatMap((work) =>
    work.windows.flatMap((window) => {
      const { closes, toTask } = window;
      const isSoon = closes !== null && closes > moment && closes - moment <= day;
      return isSoon && byId.has(toTask) && isToBegin(lifeOf(toTask)) ? [{ work, window }] : [];
    }),
  );
  return {
    late: picture.boats
      .filter(({ lateMinutes }) => lateMinutes > 0)
      .sort((a, b) => b.lateMinutes - a.lateMinutes),
    behind: lagging('behind'),
    overdue: lagging('overdue'),
    ahead: live.filter(
      ({ task, from }) => from - graceMs > moment && lifeOf(task.id).state === 'working',
    ),
    shutting: shutting.sort((a, b) => (a.window.closes ?? 0) - (b.window.closes ?? 0)),
  };
}

export const holds = ({ late, behind, overdue }: Holding): boolean =>
  late.length + behind.length + overdue.length === 0;
