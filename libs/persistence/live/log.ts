import { z } from 'zod';
import { workEventKindSchema, workPayloadSchema, type TaskLife } from '#live/life/life.ts';
import type { Transaction } from '../client.ts';

/** What an event says of one task's life. */
export interface WorkDone {
  readonly taskId: string;
  readonly before: TaskLife;
  readonly after: TaskLife;
}

/** What an event can have changed: a life, nothing of a state, or a part of it that it does not tell. */
export type Touches =
  | { readonly kind: 'life'; readonly done: WorkDone }
  | { readonly kind: 'nothing' | 'plan' | 'work' | 'yard' | 'all' };

export interface LogEntry {
  readonly id: bigint;
  /** Written by the transaction that reads it, and so not yet for good. */
  readonly own: boolean;
  readonly touches: Touches;
}

/** More than that is read anew rather than followed. */
export const mostFollowed = 500;

/** Records that are no part of a state. */
const beside: ReadonlySet<string> = new Set([
  'plan-run',
  'alarm',
  'candidate',
  'proposal',
  'snag',
  'photo',
  'change',
  'report',
  'calendar',
  'invitation',
  'program-key',
]);

/** Of the yard's own records, but not of its tasks. */
const ofYard: ReadonlySet<string> = new Set([
  'readings-added',
  'reading-removed',
  'observation-added',
  'observation-removed',
  'outdoor-imported',
  'person-added',
  'person-changed',
  'person-removed',
  'delivery-added',
  'delivery-changed',
  'delivery-removed',
]);

const settings: ReadonlySet<string> = new Set([
  'access-settings-changed',
  'live-settings-changed',
  'person-invited',
  'invitation-revoked',
]);

export interface Logged {
  readonly kind: string;
  readonly subject: string;
  readonly subjectId: string;
  readonly payload: unknown;
}

const hasLives = (payload: unknown): boolean =>
  typeof payload === 'object' && payload !== null && 'lives' in payload;

/** Whatever is not known counts as having changed everything. */
function touchesOf({ kind, subject, subjectId, payload }: Logged): Touches {
  if (subject === 'task' && workEventKindSchema.safeParse(kind).success) {
    const read = workPayloadSchema.safeParse(payload);
    if (!read.success) return { kind: 'work' };
    const { before, after } = read.data;
    return { kind: 'life', done: { taskId: subjectId, before, after } };
  }
  if (subject === 'task' || kind === 'rework-made') return { kind: 'work' };
  if (hasLives(payload)) return { kind: 'all' };
  if (subject === 'plan') return { kind: 'plan' };
  if (beside.has(subject) || settings.has(kind)) return { kind: 'nothing' };
  return { kind: ofYard.has(kind) ? 'yard' : 'all' };
}

const rowSchema = z.object({
  yard: z.string().nullable(),
  id: z.bigint().nullable(),
  kind: z.string().nullable(),
  subject: z.string().nullable(),
  subject_id: z.string().nullable(),
  payload: z.unknown(),
  own: z.boolean(),
});

/**
 * The yard's events above `after`, ascending, as far as this transaction sees them; at most one
 * more than `mostFollowed`. Only a transaction that sees the whole yard may ask.
 */
export async function readLog(tx: Transaction, yardId: string, after: bigint): Promise<LogEntry[]> {
  const rows = rowSchema.array().parse(
    await tx.$queryRaw`
      SELECT (SELECT app_whole_yard()) AS yard, e.id, e.kind, e.subject, e.subject_id, e.payload,
             coalesce(e.made_by = pg_current_xact_id_if_assigned()::xid, false) AS own
      FROM (SELECT) one LEFT JOIN LATERAL (
        SELECT xmin AS made_by, id, kind, subject, subject_id, payload FROM event
        WHERE yard_id = ${yardId} AND id > ${after} ORDER BY id LIMIT ${mostFollowed + 1}
      ) e ON true
      ORDER BY e.id`,
  );
  if (rows.some(({ yard }) => yard !== yardId)) {
    throw new Error(`the state of ${yardId} is read by those who see all of it`);
  }
  return rows.flatMap(({ id, kind, subject, subject_id: subjectId, payload, own }) =>
    id === null || kind === null || subject === null || subjectId === null
      ? []
      : [{ id, own, touches: touchesOf({ kind, subject, subjectId, payload }) }],
  );
}
