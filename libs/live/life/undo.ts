import { DomainError } from '#kernel/error.ts';
import { taskLifeSchema, type TaskLife, type WorkEventKind, type WorkPayload } from './life.ts';

/** A report as the log has it. */
export interface Reported {
  /** Of its event. */
  readonly id: string;
  readonly kind: WorkEventKind;
  readonly payload: WorkPayload;
  /** Null: the service itself. */
  readonly by: string | null;
  /** When it was written down, by the service's clock; ms. */
  readonly writtenAt: number;
}

interface Undoing {
  readonly by: string;
  readonly isForeman: boolean;
  readonly now: number;
  readonly undoMinutes: number;
  /** What follows from the report and has begun; null while nothing has. */
  readonly begun: string | null;
}

const plain = (life: TaskLife): string => JSON.stringify(taskLifeSchema.parse(life));

/** Field by field, whatever their order. */
export const sameLife = (a: TaskLife, b: TaskLife): boolean => plain(a) === plain(b);

/** Of a task's reports, the newest first, the last that nobody has taken back. */
export function lastStanding(reports: readonly Reported[]): Reported | null {
  const undone = new Set<string>();
  for (const report of reports) {
    if (report.kind === 'task-undone') {
      if (report.payload.undoes !== null) undone.add(report.payload.undoes);
    } else if (!undone.has(report.id)) return report;
  }
  return null;
}

const never = (why: string): DomainError => new DomainError('work.undo', `${why}.`);

/**
 * The life as it was before the last report, which is taken back: within the yard's time by whoever
 * made it, by the foreman at any time; nothing that follows from it has begun. Throws `work.undo`.
 */
export function undo(
  life: TaskLife,
  last: Reported | null,
  undoing: Undoing,
): { readonly after: TaskLife; readonly undone: Reported } {
  if (last === null) throw never('Nothing has been reported of it that could be taken back');
  if (last.kind === 'claim-lapsed') throw never('The claim lapsed by itself');
  if (!sameLife(life, last.payload.after)) throw never('It has been changed since');
  const { by, isForeman, now, undoMinutes, begun } = undoing;
  if (!isForeman && last.by !== by) {
    throw new DomainError('work.undo', 'Somebody else reported it.', {
      cure: 'Ask them, or the foreman.',
    });
  }
  if (!isForeman && now - last.writtenAt > undoMinutes * 60_000) {
    throw never(`It was reported more than ${String(undoMinutes)} minutes ago`);
  }
  if (begun !== null) throw never(`${begun} has begun since`);
  return { after: last.payload.before, undone: last };
}
