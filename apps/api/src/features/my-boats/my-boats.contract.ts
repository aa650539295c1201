import { z } from 'zod';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { date, id } from '#planning/yard/scalars.ts';
import '../../shape-names.ts';
import { named } from '../../platform/shapes/names.ts';
import { outputShape } from '../../platform/shapes/shape.ts';

/** One piece of work as its owner reads it: what and when, and who only where the yard shows it. */
export const weekItem = named(
  'OwnerWeekItem',
  z.object({
    date: date.describe("A day in the yard's zone."),
    part: z.string(),
    task: z.string(),
    state: named('OwnerTaskState', z.enum(['planned', 'working', 'done'])),
    crew: z
      .array(z.string())
      .nullable()
      .describe('Names, as planned; null where the yard does not show owners its crew.'),
    words: z.string(),
  }),
);
export type WeekItem = z.output<typeof weekItem>;

export const ownerRefit = named(
  'OwnerRefit',
  z.object({
    id,
    name: z.string(),
    promised: whenSchema.nullable(),
    plannedFinish: whenSchema.nullable().describe('By the published plan; null without one.'),
    lateMinutes: z
      .int()
      .describe('From the promised moment to the handing over; 0 in time or where none is given.'),
    tasksDone: z.int(),
    tasks: z.int().describe('Of the published plan; 0 without one.'),
    words: z.string(),
    thisWeek: z.array(weekItem),
  }),
);
export type OwnerRefit = z.output<typeof ownerRefit>;

/** A stretch of this week in which a space is taken: by own work, or by work that is not told. */
const ownerStretch = named(
  'OwnerStretch',
  z.object({
    from: whenSchema,
    until: whenSchema,
    taskId: z.string().nullable().describe('Of the own boats; null: occupied by others.'),
    words: z.string(),
  }),
);

export const ownerSpace = named(
  'OwnerSpace',
  z.object({ id, name: z.string(), taken: z.array(ownerStretch) }),
);
export type OwnerSpace = z.output<typeof ownerSpace>;

export const MyBoat = outputShape(
  'MyBoat',
  z.object({
    id,
    name: z.string(),
    weekStart: date,
    refits: z.array(ownerRefit),
    spaces: z
      .array(ownerSpace)
      .describe('The spaces that its work needs, and when they are taken this week as planned.'),
  }),
);
export type MyBoat = z.output<typeof MyBoat.schema>;

export const MyBoats = outputShape('MyBoats', z.object({ items: z.array(MyBoat.schema) }));
export type MyBoats = z.output<typeof MyBoats.schema>;
