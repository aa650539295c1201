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
  /** Windows that by the plan shut within a day, whose follow-up has not begun; the first to shut first. */
  readonly shutting: readonly Pressing[];
}

const day = 86_400_000;
/** Nobody begins on the minute. */
const graceMs = 15 * 60_000;

export function holdingOf(
  { picture, works, byId }: Model,
  nowOf: (taskId: string) => Now | undefined,
  moment: number,
): Holding {
  const stateOf = (id: string): Now['state'] => nowOf(id)?.state ?? 'dropped';
  const toBegin = (id: string): boolean => ['waiting', 'claimed'].includes(stateOf(id));
  const live = picture.isPublished ? works : [];
  const shutting = live.flatMap((work) =>
    work.windows.flatMap((window) => {
      const { closes, toTask } = window;
      const isSoon = closes !== null && closes > moment && closes - moment <= day;
      return isSoon && byId.has(toTask) && toBegin(toTask) ? [{ work, window }] : [];
    }),
  );
  return {
    late: picture.boats
      .filter(({ lateMinutes }) => lateMinutes > 0)
      .sort((a, b) => b.lateMinutes - a.lateMinutes),
    behind: live.filter(({ task, from }) => from + graceMs < moment && toBegin(task.id)),
    overdue: live.filter(
      ({ task, until }) => until + graceMs < moment && stateOf(task.id) === 'working',
    ),
    shutting: shutting.sort((a, b) => (a.window.closes ?? 0) - (b.window.closes ?? 0)),
  };
}

export const holds = ({ late, behind, overdue }: Holding): boolean =>
  late.length + behind.length + overdue.length === 0;
