import type { TaskLink } from '../../workload/workload.ts';
import type { Place } from './place.ts';

/**
 * A window that was given up before it has shut. The work has the preparation that is needed once it
 * has; whoever begins by then needs none.
 */
export interface StillOpen {
  /** What has to be begun by then. */
  readonly taskId: string;
  /** ISO. */
  readonly until: string;
  /** Into the task, as they are without the preparation. */
  readonly links: readonly TaskLink[];
  /** The preparation: nobody has begun it, nor has it in hand. */
  readonly spares: readonly string[];
}

/** At one moment. */
export interface OpenWays {
  /** Into a task whose window is still open all the same; undefined of any other. */
  links(taskId: string): readonly TaskLink[] | undefined;
  /** What is to be known of such a task, or of the preparation for it, before it is taken up. */
  notes(taskId: string): readonly string[];
}

const none: OpenWays = { links: () => undefined, notes: () => [] };

export function waysOpen(
  all: readonly StillOpen[],
  { rows, frame, now, at }: Pick<Place, 'rows' | 'frame' | 'now' | 'at'>,
): OpenWays {
  const open = all.filter(({ until }) => frame.minuteOf(until) > now);
  if (open.length === 0) return none;
  const nameOf = (id: string): string => `“${rows.tasks.get(id)?.name ?? id}”`;
  const links = new Map(open.map((one) => [one.taskId, one.links]));
  const notes = new Map<string, readonly string[]>();
  for (const { taskId, until, spares } of open) {
    const by = at.words(frame.minuteOf(until));
    const what = new Intl.ListFormat('en').format(spares.map(nameOf));
    notes.set(taskId, [`Still open: begun by ${by}, it does not need ${what}.`]);
    const unless = `Needed only if ${nameOf(taskId)} is not begun by ${by}: its window is still open.`;
    for (const id of spares) notes.set(id, [unless]);
  }
  return {
    links: (taskId) => links.get(taskId),
    notes: (taskId) => notes.get(taskId) ?? [],
  };
}
