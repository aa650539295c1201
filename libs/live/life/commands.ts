import { z } from 'zod';
import { id } from '#planning/yard/scalars.ts';

/** `<job>.<step>`, and so longer than an id may be. */
const taskId = z.string().min(1).max(300);
const reason = z.string().trim().min(1, 'say why').max(1000);
const leftMinutes = z
  .number()
  .min(0)
  .max(100_000)
  .describe('Builder-minutes at the nominal rate that are still to be done.');

/** The foreman's word that work begins against what the service advises. */
export const overrideInputSchema = z.strictObject({ reason });

/**
 * What can be reported of work. Each names the task: there is one holder. `crew` and `member` name
 * others than the caller, whom only the foreman may send.
 */
export const workCommands = {
  claim: z.strictObject({
    kind: z.literal('claim'),
    taskId,
    crew: z
      .array(id)
      .min(1)
      .max(50)
      .optional()
      .describe('Who does it, the holder first; left out, the caller alone.'),
  }),
  join: z.strictObject({ kind: z.literal('join'), taskId, member: id.optional() }),
  leave: z.strictObject({ kind: z.literal('leave'), taskId, member: id.optional() }),
  release: z.strictObject({
    kind: z.literal('release'),
    taskId,
    leftMinutes: leftMinutes.optional(),
  }),
  start: z.strictObject({
    kind: z.literal('start'),
    taskId,
    override: overrideInputSchema.optional(),
  }),
  pause: z.strictObject({ kind: z.literal('pause'), taskId, leftMinutes: leftMinutes.optional() }),
  resume: z.strictObject({ kind: z.literal('resume'), taskId }),
  progress: z.strictObject({ kind: z.literal('progress'), taskId, leftMinutes }),
  finish: z.strictObject({ kind: z.literal('finish'), taskId }),
  abandon: z.strictObject({ kind: z.literal('abandon'), taskId, reason }),
  'fail-batch': z.strictObject({ kind: z.literal('fail-batch'), taskId, reason }),
  undo: z.strictObject({ kind: z.literal('undo'), taskId }),
} as const;

export const workCommandSchema = z.discriminatedUnion('kind', [
  workCommands.claim,
  workCommands.join,
  workCommands.leave,
  workCommands.release,
  workCommands.start,
  workCommands.pause,
  workCommands.resume,
  workCommands.progress,
  workCommands.finish,
  workCommands.abandon,
  workCommands['fail-batch'],
  workCommands.undo,
]);
export type WorkCommand = z.output<typeof workCommandSchema>;
export type CommandKind = WorkCommand['kind'];
