import { z } from 'zod';
import { taskStateSchema } from '#persistence/plan/sheet-shape.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import { personSchema, taskStandingSchema } from './people.contract.ts';

/** `<job>.<step>`, and so longer than an id may be. */
const taskId = z.string().max(300);

const spanSchema = named(
  'TaskSpan',
  z.object({
    claimId: id,
    start: instant,
    end: instant.nullable().describe('Null: still at it.'),
  }),
);

export const Task = outputShape(
  'Task',
  z.object({
    id: taskId,
    name: z.string(),
    jobId: id,
    part: z.string(),
    boat: z.string(),
    state: taskStateSchema,
    stands: taskStandingSchema.describe('The same as whoever looks for work sees it.'),
    opensAt: instant.nullable().describe('When what it waits for is over, where that is known.'),
    why: z
      .string()
      .nullable()
      .describe('What keeps it from beginning; null: nothing, or it has begun.'),
    skill: id.nullable().describe('Null of a hold point.'),
    minLevel: z.int(),
    crewMin: z.int(),
    crewMax: z.int(),
    inOneGo: z.boolean().describe('It cannot be put aside half done.'),
    startedAt: instant.nullable(),
    spans: z
      .array(spanSchema)
      .describe('Time really worked on it, in order; not when it was put aside.'),
    finishedAt: instant.nullable().describe('Of running work: when it is expected.'),
    leftMinutes: z
      .number()
      .nullable()
      .describe(
        'Builder-minutes at the nominal rate still to be done of begun work, where reported.',
      ),
    fixedStart: instant.nullable().describe('When the foreman wants it begun.'),
    crew: z
      .array(personSchema)
      .describe('Who does or did it; of waiting work, whom it is set for.'),
    after: z.array(taskId).describe('Tasks that the foreman wants done before it.'),
    revision,
  }),
);
export type Task = z.output<typeof Task.schema>;
export const TaskPage = pageShape(Task);

/** What the foreman fixes; plans to come keep to it. */
export const TaskPatch = inputShape(
  'TaskPatch',
  z.strictObject({
    fixedStart: instant.nullable().optional().describe('Null: whenever is best.'),
    crew: z.array(id).max(50).optional().describe('The whole crew; empty: whoever is best.'),
    after: z.array(taskId).max(50).optional().describe('All that it has to come after.'),
  }),
);
export type TaskPatch = z.output<typeof TaskPatch.schema>;
