import { z } from 'zod';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { date, id } from '#planning/yard/scalars.ts';
import '../../shape-names.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

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

const moment = z.iso.datetime();

/** When the refit is finished, by the plan of then and by the plan of now. */
const historyFinish = named(
  'OwnerFinishMoved',
  z.object({
    refitId: id,
    refit: z.string(),
    before: whenSchema.nullable().describe('By what was published then; null: not planned.'),
    after: whenSchema.nullable().describe('By what is published now; null: not planned.'),
    days: z
      .int()
      .nullable()
      .describe('Later, or (negative) earlier, by the calendar; null: one of them is missing.'),
    words: z.string(),
  }),
);
export type HistoryFinish = z.output<typeof historyFinish>;

const historyItem = named(
  'OwnerHistoryItem',
  z.object({
    at: moment,
    date: date.describe("Its day in the yard's zone."),
    kind: named('OwnerHistoryKind', z.enum(['plan', 'work', 'snag', 'change'])),
    words: z.array(z.string()),
    why: z.array(z.string()).describe('As far as it is about the own boat.'),
    subjectId: z.string().nullable().describe('Of a snag or a change: which.'),
  }),
);
export type HistoryItem = z.output<typeof historyItem>;

/** What has become of a boat since a moment; nothing of any other. */
export const MyBoatHistory = outputShape(
  'MyBoatHistory',
  z.object({
    boatId: id,
    since: moment,
    finishes: z.array(historyFinish),
    items: z.array(historyItem).describe('The newest first; of plans one a day.'),
  }),
);
export type MyBoatHistory = z.output<typeof MyBoatHistory.schema>;

export const MyBoatHistoryQuery = inputShape(
  'MyBoatHistoryQuery',
  z.strictObject({
    since: z.iso
      .datetime({ offset: true })
      .optional()
      .describe('At most 92 days ago; unless told a week ago.'),
  }),
);
export type MyBoatHistoryQuery = z.output<typeof MyBoatHistoryQuery.schema>;

/** That something of the own boats is not what it was: read them again. */
export const MyBoatChanged = outputShape(
  'MyBoatChanged',
  z.object({
    eventId: z.string().describe('Follow on after it.'),
    boatIds: z.array(id).describe('Of the own boats.'),
  }),
);
export type MyBoatChanged = z.output<typeof MyBoatChanged.schema>;
