import '../../shape-names.ts';
import { z } from 'zod';
import { taskStateSchema } from '#persistence/plan/sheet-shape.ts';
import { milestoneSchema } from '#planning/yard/materials.ts';
import { airSchema } from '#planning/yard/procedures.ts';
import { date, instant } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import './plans.contract.ts';

export const PictureQuery = inputShape(
  'PictureQuery',
  z.strictObject({
    from: date
      .optional()
      .describe(
        'The first day; unless told the Monday of now, or of the plan where it is not now.',
      ),
    days: z.coerce.number().int().min(1).max(31).default(7),
  }),
);

const moment = z.iso.datetime();
const spanSchema = named('PictureSpan', z.object({ from: moment, until: moment }));

/** What of a live task shows on it; `claimed`: taken and not begun. */
const nowSchema = named(
  'PictureNow',
  z.object({
    state: named(
      'PictureState',
      z.enum([...taskStateSchema.options, 'claimed', 'dropped']),
    ).describe('By what has been reported by now, whatever the plan was made from.'),
    crew: z.array(z.string()).describe('Ids of people who have it in hand, or did it.'),
    startedAt: moment.nullable(),
    finishedAt: moment.nullable().describe('Of work that is done.'),
  }),
);

const windowSchema = named(
  'PictureWindow',
  z.object({
    toTask: z.string(),
    toName: z.string(),
    kind: z.string().describe('As of `CureWindow`.'),
    opens: moment.nullable(),
    closes: moment.nullable(),
    starts: moment.describe('When the follow-up is planned.'),
  }),
);

const taskSchema = named(
  'PictureTask',
  z.object({
    id: z.string(),
    name: z.string(),
    refitId: z.string(),
    partId: z.string(),
    part: z.string(),
    spaceId: z.string(),
    air: airSchema,
    skill: z.string().nullable().describe('Null of a hold point.'),
    material: z.string().nullable(),
    start: moment,
    finish: moment,
    segments: z.array(spanSchema),
    crew: z.array(z.string()).describe('Ids of people.'),
    cleanedDown: moment.nullable(),
    floatMinutes: z.number().nullable(),
    film: z.array(
      named('PictureMark', z.object({ milestone: milestoneSchema, at: moment.nullable() })),
    ),
    filmUntil: moment.nullable().describe('So long its film matters to somebody; null: no film.'),
    windows: z.array(windowSchema),
    warnings: z.array(z.string()),
    fixedStart: instant.nullable().describe('Set by the foreman for plans to come.'),
    crewIsSet: z.boolean().describe('By the foreman.'),
    now: nowSchema,
  }),
);

const personSchema = named(
  'PicturePerson',
  z.object({
    id: z.string(),
    name: z.string(),
    hours: z.array(spanSchema).describe('Shifts without their breaks.'),
  }),
);

const spaceSchema = named(
  'PictureSpace',
  z.object({
    id: z.string(),
    name: z.string(),
    room: z.int().nullable().describe('Null: the yard does not have it any more.'),
    dustReaches: z.array(z.string()),
  }),
);

const stepSchema = named(
  'PictureStep',
  z.object({
    fromTask: z.string().nullable(),
    toTask: z.string(),
    until: moment,
    text: z.string(),
  }),
);

const boatSchema = named(
  'PictureBoat',
  z.object({
    boatId: z.string(),
    boat: z.string(),
    refitId: z.string(),
    refit: z.string(),
    promised: moment.nullable(),
    finish: moment,
    lateMinutes: z.number(),
    chain: z.array(stepSchema).describe('Why it takes that long, from the first cause.'),
  }),
);

/** A stretch of days of a plan, as much of it as has to be drawn. */
export const PlanPicture = outputShape(
  'PlanPicture',
  z.object({
    planId: z.string(),
    isPublished: z.boolean(),
    at: moment.describe('The moment that what is live is true of.'),
    from: date,
    days: z.int(),
    begins: moment,
    ends: moment,
    planFrom: moment,
    planUntil: moment,
    tasks: z
      .array(taskSchema)
      .describe(
        'Worked on in it, or with a film that matters in it; of the published plan, where now is in it, also what should have been over before it and is not, and what is begun before its time.',
      ),
    people: z.array(personSchema).describe('Builders, and whoever else has work in it.'),
    spaces: z.array(spaceSchema),
    boats: z.array(boatSchema).describe('All of the plan.'),
  }),
);

export type PictureQuery = z.output<typeof PictureQuery.schema>;
export type PlanPicture = z.output<typeof PlanPicture.schema>;
export type PictureTask = z.output<typeof taskSchema>;
