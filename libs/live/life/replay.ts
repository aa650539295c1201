import { z } from 'zod';
import {
  lifeChangeSchema,
  workEventKindSchema,
  workPayloadSchema,
  type LifeChange,
  type TaskLife,
  type WorkPayload,
} from './life.ts';
import { sameLife } from './undo.ts';

/** An event as the log has it. */
export interface Logged {
  readonly id: string;
  readonly kind: string;
  readonly subject: string;
  readonly subjectId: string;
  readonly payload: unknown;
}

interface Replayed {
  /** By task, after the last event. */
  readonly lives: ReadonlyMap<string, TaskLife>;
  /** Each place at which the log does not follow from itself, in words. */
  readonly breaks: readonly string[];
}

const withLives = z.looseObject({ lives: z.array(lifeChangeSchema) });

const isNew = ({ state, claim, spans, startedAt }: TaskLife): boolean =>
  state === 'waiting' && claim === null && spans.length === 0 && startedAt === null;

/**
 * The lives of a yard's tasks as its log tells them, from its beginning. Every event has to begin
 * where the one before it left the task, and what is taken back has to have been so.
 */
export function replay(log: Iterable<Logged>): Replayed {
  const lives = new Map<string, TaskLife>();
  const reports = new Map<string, WorkPayload & { readonly taskId: string }>();
  const breaks: string[] = [];
  const follow = (event: Logged, { taskId, before, after }: LifeChange): void => {
    const broken = (what: string): void => {
      breaks.push(`event ${event.id} (${event.kind}) of ${taskId}: ${what}`);
    };
    const known = lives.get(taskId);
    if (before === null) {
      if (known !== undefined) broken('it is new, and the log has it already');
    } else if (known === undefined) {
      if (!isNew(before)) broken('the log begins in the middle of its life');
    } else if (!sameLife(known, before)) broken('it does not begin where the log left it');
    lives.set(taskId, after);
  };
  for (const event of log) {
    const { id, kind, subject, subjectId: taskId, payload } = event;
    if (subject === 'task' && workEventKindSchema.safeParse(kind).success) {
      const read = workPayloadSchema.safeParse(payload);
      if (!read.success) {
        breaks.push(`event ${id} (${kind}) of ${taskId}: it does not say what it changed`);
        continue;
      }
      const { before, after, undoes } = read.data;
      follow(event, { taskId, before, after });
      reports.set(id, { ...read.data, taskId });
      const undone = undoes === null ? undefined : reports.get(undoes);
      if (undoes === null) continue;
      if (undone?.taskId !== taskId || !sameLife(undone.before, after)) {
        breaks.push(`event ${id} (${kind}) of ${taskId}: what it takes back was not so`);
      }
      continue;
    }
    const changed = withLives.safeParse(payload);
    if (changed.success) for (const change of changed.data.lives) follow(event, change);
  }
  return { lives, breaks };
}
