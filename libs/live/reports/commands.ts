import { z } from 'zod';
import { readingSchema } from '#planning/yard/observed.ts';
import { workCommandSchema } from '../life/commands.ts';
import { tackTestSchema } from './tack-test.ts';

/** A thermometer read on the way, at the moment of the report. */
const readingCommandSchema = readingSchema
  .omit({ id: true, at: true, minutes: true })
  .extend({ kind: z.literal('reading') });

const tackTestCommandSchema = tackTestSchema.extend({ kind: z.literal('tack-test') });

/** All that a phone keeps while it has no connection, and reports later. */
export const reportCommandSchema = z.discriminatedUnion('kind', [
  ...workCommandSchema.options,
  readingCommandSchema,
  tackTestCommandSchema,
]);
export type ReportCommand = z.output<typeof reportCommandSchema>;
