import { z } from 'zod';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { date, id } from '#planning/yard/scalars.ts';
import '../../shape-names.ts';
import { named } from '../../platform/shapes/names.ts';
import { outputShape } from '../../platform/shapes/shape.ts';

/** One piece of work as its owner reads it: what and when, not who. */
export const weekItem = named(
  'OwnerWeekItem',
  z.object({
    date: date.describe("A day in the yard's zone."),
    part: z.string(),
    task: z.string(),
    state: named('OwnerTaskState', z.enum(['planned', 'working', 'done'])),
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
    lateMinutes: z.int().describe('After the promised moment; 0 in time or where none is given.'),
    tasksDone: z.int(),
    tasks: z.int().describe('Of the published plan; 0 without one.'),
    words: z.string(),
    thisWeek: z.array(weekItem),
  }),
);
export type OwnerRefit = z.output<typeof ownerRefit>;

export const MyBoat = outputShape(
  'MyBoat',
  z.object({ id, name: z.string(), weekStart: date, refits: z.array(ownerRefit) }),
);
export type MyBoat = z.output<typeof MyBoat.schema>;

export const MyBoats = outputShape('MyBoats', z.object({ items: z.array(MyBoat.schema) }));
export type MyBoats = z.output<typeof MyBoats.schema>;
