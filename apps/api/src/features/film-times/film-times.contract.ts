import { z } from 'zod';
import { filmMarkSchema } from '#persistence/plan/sheet-shape.ts';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { milestoneSchema } from '#planning/yard/materials.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { missingLine } from '../../effective-sheet.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

/** A query's numbers are text. */
const celsius = z.coerce.number().min(-60).max(200);

export const FilmQuery = inputShape(
  'FilmQuery',
  z.strictObject({
    space: id.optional().describe('Where it is; left out: where it is always `celsius`.'),
    celsius: celsius.optional().describe('In the place of a space.'),
    laidFrom: instant.describe('When the first of it is laid.'),
    laidUntil: instant.optional().describe('When the last of it is; left out: at once.'),
  }),
);

export const FilmTimes = outputShape(
  'FilmTimes',
  z.object({
    materialId: id,
    spaceId: id.nullable().describe('Null: at a constant temperature.'),
    marks: z.array(filmMarkSchema).describe('By time; what is not within sight comes last.'),
    windows: z.array(
      named(
        'FilmWindow',
        z.object({
          kind: named('FilmWindowKind', z.enum(['bond', 'tack'])),
          opens: whenSchema.nullable().describe('The latest that it may.'),
          closes: whenSchema.nullable().describe('The earliest that it may.'),
          empty: z.boolean().describe('No moment is safe for the whole film.'),
        }),
      ),
    ),
    missing: z
      .array(missingLine)
      .describe('Milestones that the sheet has no number for, with the line to enter.'),
    assumed: z
      .boolean()
      .describe(
        'Until the last of the marks the outdoor table does not say it all: a day is repeated.',
      ),
    /** Nothing was looked at beyond it. */
    horizon: whenSchema,
  }),
);

export const LatestStartQuery = inputShape(
  'LatestStartQuery',
  z.strictObject({
    space: id,
    milestone: milestoneSchema,
    by: instant.describe('When it has to be reached.'),
    minutes: z.coerce
      .number()
      .int()
      .min(0)
      .max(20_160)
      .default(0)
      .describe('How long it takes to lay.'),
  }),
);

export const LatestStart = outputShape(
  'LatestStart',
  z.object({
    materialId: id,
    spaceId: id,
    milestone: milestoneSchema,
    start: whenSchema.nullable().describe('Null: at no time that was looked at.'),
    bound: named(
      'StartBound',
      z
        .enum(['latest', 'earliest'])
        .describe('Of a milestone that ends something it is the earliest start.'),
    ),
    assumed: z
      .boolean()
      .describe('From the start on the outdoor table does not say it all: a day is repeated.'),
    words: z.string(),
  }),
);

export type FilmQuery = z.output<typeof FilmQuery.schema>;
export type FilmTimes = z.output<typeof FilmTimes.schema>;
export type LatestStartQuery = z.output<typeof LatestStartQuery.schema>;
export type LatestStart = z.output<typeof LatestStart.schema>;
