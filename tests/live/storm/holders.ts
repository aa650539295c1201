import { isDeepStrictEqual } from 'node:util';
import { untouched, workEventKindSchema, workPayloadSchema } from '#live/life/life.ts';
import type { Event } from '#persistence/generated/client.ts';

/** From which event on somebody held a task, and which ended it. */
interface Held {
  readonly taskId: string;
  readonly claimId: string;
  readonly from: bigint;
  readonly until: bigint | null;
}

interface Told {
  readonly held: readonly Held[];
  /** What cannot be, in words: a task with two holders, a log with a hole. */
  readonly wrong: readonly string[];
  readonly byKind: ReadonlyMap<string, number>;
}

const endings: ReadonlySet<string> = new Set([
  'task-released',
  'claim-lapsed',
  'task-finished',
  'task-abandoned',
  'batch-failed',
  'task-undone',
]);

/** What the log of a yard says of who held what: read event by event, by nothing but the log. */
export function holdersIn(events: readonly Event[]): Told {
  const wrong: string[] = [];
  const byKind = new Map<string, number>();
  const last = new Map<string, unknown>();
  const open = new Map<string, { claimId: string; from: bigint }>();
  const held: Held[] = [];
  /** Of each task the claim that lapsed, while nobody has had the task since. */
  const lapsed = new Map<string, string>();
  for (const { id, kind, subject, subjectId: taskId, payload } of events) {
    if (subject !== 'task' || !workEventKindSchema.safeParse(kind).success) continue;
    byKind.set(kind, (byKind.get(kind) ?? 0) + 1);
    const { before, after } = workPayloadSchema.parse(payload);
    const where = `event ${String(id)} (${kind}) of ${taskId}`;
    if (!isDeepStrictEqual(last.get(taskId) ?? untouched(), before)) {
      wrong.push(`${where} does not begin where the one before it ended`);
    }
    last.set(taskId, after);
    const now = open.get(taskId);
    const next = after.claim?.id;
    if (now !== undefined && next !== now.claimId) {
      if (!endings.has(kind)) wrong.push(`${where} takes it from ${now.claimId}, who holds it`);
      held.push({ taskId, claimId: now.claimId, from: now.from, until: id });
      open.delete(taskId);
      if (kind === 'claim-lapsed') lapsed.set(taskId, now.claimId);
    }
    if (next !== undefined && now?.claimId !== next) {
      if (now !== undefined) wrong.push(`${where} gives it to ${next} in the same breath`);
      // Begun before it lapsed, though the service heard of it afterwards: it counts again.
      const isBack = kind === 'task-started' && lapsed.get(taskId) === next;
      if (kind !== 'task-claimed' && kind !== 'task-undone' && !isBack) {
        wrong.push(`${where} has a holder whom no claim made`);
      }
      lapsed.delete(taskId);
      open.set(taskId, { claimId: next, from: id });
    }
  }
  for (const [taskId, { claimId, from }] of open) held.push({ taskId, claimId, from, until: null });
  for (const [taskId, spans] of Map.groupBy(held, (one) => one.taskId)) {
    const sorted = spans.toSorted((a, b) => (a.from < b.from ? -1 : 1));
    sorted.slice(1).forEach(({ from }, k) => {
      const { until } = sorted[k];
      if (until === null || from < until)
        wrong.push(`${taskId} has two holders at ${String(from)}`);
    });
  }
  return { held, wrong, byKind };
}
