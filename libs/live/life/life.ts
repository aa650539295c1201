import { z } from 'zod';
import { taskStates } from '#planning/workload/workload.ts';
import { id } from '#planning/yard/scalars.ts';

/** UTC, with milliseconds. */
const moment = z.iso.datetime();

export const claimStates = ['open', 'working', 'paused', 'finished', 'released', 'lapsed'] as const;
/** Statuses in which a claim keeps its task from others. */
export const holding = ['open', 'working', 'paused'] as const;

/** Why the foreman had work begun against the service's advice. */
const overrideSchema = z.object({ reason: z.string(), by: id });

/** Who has a task in hand. */
export const claimLifeSchema = z.object({
  id: z.uuid(),
  status: z.enum(holding),
  holder: id,
  /** The holder first. */
  crew: z.array(id),
  claimedAt: moment,
  /** An open claim that nobody has started by then is over; null of one that was started. */
  lapsesAt: moment.nullable(),
  startedAt: moment.nullable(),
  override: overrideSchema.nullable(),
});
export type ClaimLife = z.output<typeof claimLifeSchema>;

/** Time really worked, by whom; `end` null: still at it. */
const workSpanSchema = z.object({
  id: z.uuid(),
  claimId: z.uuid(),
  start: moment,
  end: moment.nullable(),
  crew: z.array(id),
});
export type WorkSpan = z.output<typeof workSpanSchema>;

/**
 * All that reports of work change about one task, as it is stored. `crew` is who does or did it, or
 * whom the foreman has set it for; `setCrew` those of them whom the foreman set.
 */
export const taskLifeSchema = z.object({
  state: z.enum([...taskStates, 'dropped']),
  startedAt: moment.nullable(),
  finishedAt: moment.nullable(),
  leftMinutes: z.number().nullable(),
  crew: z.array(id),
  setCrew: z.array(id),
  claim: claimLifeSchema.nullable(),
  /** In order of their starts. */
  spans: z.array(workSpanSchema),
});
export type TaskLife = z.output<typeof taskLifeSchema>;

/** What can be reported of work; the event's kind is the same word. */
export const workEventKinds = [
  'task-claimed',
  'crew-joined',
  'crew-left',
  'task-released',
  'claim-lapsed',
  'task-started',
  'task-paused',
  'task-resumed',
  'task-progressed',
  'task-finished',
  'task-abandoned',
  'batch-failed',
  'task-undone',
] as const;
export const workEventKindSchema = z.enum(workEventKinds);
export type WorkEventKind = z.output<typeof workEventKindSchema>;

/**
 * The payload of an event of work (subject `task`): it holds the whole life before and after, so
 * that the log alone gives every state there was, and a break in the log is seen.
 */
export const workPayloadSchema = z.object({
  /** When it really was; the event's own `at` is when it was written down. */
  at: moment,
  before: taskLifeSchema,
  after: taskLifeSchema,
  /** Of a report from a phone: its id. */
  reportId: z.uuid().nullable(),
  /** Of `task-undone`: the event that it takes back. */
  undoes: z.string().nullable(),
  /** Why, where somebody said: an override, an abandoned job. */
  reason: z.string().nullable(),
});
export type WorkPayload = z.output<typeof workPayloadSchema>;

/** Of events that change several tasks at once (`rework-made`, `change-accepted`, `task-fixed`): their `lives`. */
export const lifeChangeSchema = z.object({
  taskId: z.string(),
  /** Null: there was no such task. */
  before: taskLifeSchema.nullable(),
  after: taskLifeSchema,
});
export type LifeChange = z.output<typeof lifeChangeSchema>;

/** A task that nobody has touched; `set` are those whom the foreman has set it for. */
export const untouched = (set: readonly string[] = []): TaskLife => ({
  state: 'waiting',
  startedAt: null,
  finishedAt: null,
  leftMinutes: null,
  crew: [...set],
  setCrew: [...set],
  claim: null,
  spans: [],
});
