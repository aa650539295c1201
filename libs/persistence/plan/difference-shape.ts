import { z } from 'zod';
import type { Difference } from '#live/difference/difference.ts';
import { crewMemberSchema } from './sheet-shape.ts';
import { whenSchema } from './when-shape.ts';

/** What another plan changes, as it is answered; tied to the type of live below. */
export const boatDifferenceSchema = z.object({
  boatId: z.string(),
  boat: z.string(),
  refitId: z.string(),
  refit: z.string(),
  promised: whenSchema.nullable(),
  before: whenSchema.nullable().describe('When it is finished; null where the plan lacks it.'),
  after: whenSchema.nullable(),
  minutes: z.int().nullable().describe('Later, or below 0 earlier.'),
  days: z.int().nullable().describe('Days lost, or below 0 gained, by the yard’s calendar.'),
  lateBefore: z.number().describe('Minutes from the promise to the handing over; 0 in time.'),
  lateAfter: z.number(),
});

export const taskDifferenceSchema = z.object({
  taskId: z.string(),
  task: z.string(),
  boatId: z.string(),
  boat: z.string(),
  part: z.string(),
  kind: z
    .enum(['moved', 'people', 'new', 'gone'])
    .describe(
      'At another time; at its time with other people; not there before; not there any more.',
    ),
  from: whenSchema.nullable(),
  to: whenSchema.nullable(),
  minutes: z.int().nullable(),
  peopleBefore: z.array(crewMemberSchema),
  peopleAfter: z.array(crewMemberSchema),
});

export const personDifferenceSchema = z.object({
  personId: z.string(),
  name: z.string(),
  moves: z.array(z.string()).describe('Tasks, theirs before and after, at another time.'),
  takes: z.array(z.string()),
  leaves: z.array(z.string()),
});

export const windowDifferenceSchema = z.object({
  linkId: z.string(),
  kind: z.string(),
  boatId: z.string(),
  boat: z.string(),
  part: z.string(),
  fromTask: z.string(),
  from: z.string(),
  toTask: z.string(),
  to: z.string(),
  closes: whenSchema,
});

export const windowsDifferenceSchema = z.object({
  lost: z.array(windowDifferenceSchema).describe('Made use of before, and no more.'),
  regained: z.array(windowDifferenceSchema),
});

export const differenceSchema = z.object({
  boats: z.array(boatDifferenceSchema),
  tasks: z.array(taskDifferenceSchema).describe('By time; what has begun is not among them.'),
  people: z.array(personDifferenceSchema).describe('Whom it asks for something else.'),
  windows: windowsDifferenceSchema,
  moved: z.int().describe('How many tasks.'),
  words: z.array(z.string()).describe('The same in sentences, what weighs most first.'),
}) satisfies z.ZodType<Difference>;
