import { z } from 'zod';
import { phoneTimes } from '#live/life/phone.ts';
import { readingSchema } from '#planning/yard/observed.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const Reading = outputShape('Reading', readingSchema);
export const ReadingPage = pageShape(Reading);
export const ReadingList = outputShape(
  'ReadingList',
  z.object({
    items: z.array(readingSchema).describe('Those that were added.'),
    skipped: z.int().describe('How many the yard had already.'),
  }),
);

const given = named(
  'NewReading',
  readingSchema.extend({
    id: id.optional().describe('Left out: the service gives it one.'),
  }),
);

/** As many as a logger has gathered, in any order; all are taken or none. */
export const ReadingsInput = inputShape(
  'ReadingsInput',
  z.strictObject({
    readings: z.array(given).min(1).max(10_000),
    sentAt: phoneTimes.sentAt,
    skipKnown: z
      .boolean()
      .default(false)
      .describe(
        'Leave out what the yard has already, the same in all but id and note: many loggers tell all they hold each time.',
      ),
  }),
);

const asked = z.strictObject({
  space: id.optional(),
  from: instant.optional().describe('Taken then or later.'),
  until: instant.optional().describe('Taken before.'),
});
export const ReadingsQuery = inputShape('ReadingsQuery', pageQuerySchema.extend(asked.shape));
/** The same where the page is asked for apart from it. */
export const ReadingsFilter = inputShape('ReadingsFilterInput', asked);

export type Reading = z.output<typeof Reading.schema>;
export type ReadingList = z.output<typeof ReadingList.schema>;
export type ReadingsInput = z.output<typeof ReadingsInput.schema>;
export type ReadingsQuery = z.output<typeof ReadingsQuery.schema>;
export type ReadingsFilter = z.output<typeof ReadingsFilter.schema>;
