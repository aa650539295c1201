import '../../shape-names.ts';
import { z } from 'zod';
import { crewMemberSchema, segmentSchema } from '#persistence/plan/sheet-shape.ts';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { named } from '../../platform/shapes/names.ts';
import { outputShape } from '../../platform/shapes/shape.ts';

/** What the yard was told of the task when a plan was published. */
const toldSchema = named(
  'ToldTask',
  z.object({
    planId: z.string(),
    publishedAt: z.iso.datetime(),
    publishedBy: z.string().nullable().describe('Null: automatically.'),
    start: whenSchema,
    finish: whenSchema,
    segments: z.array(segmentSchema),
    crew: z.array(crewMemberSchema),
  }),
);

const realSpanSchema = named(
  'RealSpan',
  z.object({
    start: whenSchema,
    finish: whenSchema.nullable().describe('Null: still at it.'),
    crew: z.array(crewMemberSchema),
  }),
);

export const TaskHistory = outputShape(
  'TaskHistory',
  z.object({
    taskId: z.string(),
    task: z.string(),
    state: z.string().describe('`dropped`: not to be done any more.'),
    replaces: z.string().nullable().describe('The task that it does again.'),
    replacedBy: z.array(z.string()).describe('Tasks that do it again.'),
    planned: toldSchema.nullable().describe('As it was first published; null: it never was.'),
    replanned: z.array(toldSchema).describe('Each later plan that told it otherwise, in order.'),
    actual: named(
      'ActualWork',
      z.object({
        startedAt: whenSchema.nullable(),
        finishedAt: whenSchema.nullable(),
        spans: z.array(realSpanSchema).describe('Time really worked, by whom.'),
      }),
    ),
  }),
);

export type TaskHistory = z.output<typeof TaskHistory.schema>;
export type ToldTask = z.output<typeof toldSchema>;
