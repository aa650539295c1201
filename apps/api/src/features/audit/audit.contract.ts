import { z } from 'zod';
import { auditChangeSchema, auditRecordSchema } from '#persistence/audit/records.ts';
import { id } from '#planning/yard/scalars.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

named('AuditChange', auditChangeSchema);
named('AuditRecord', auditRecordSchema);

const json = (words: string): z.ZodNullable<z.ZodString> => z.string().nullable().describe(words);

const fieldSchema = z.object({
  name: z.string(),
  before: json('JSON; null where there was no such record before.'),
  after: json('JSON; null where there is no such record any more.'),
});
named('AuditField', fieldSchema);

export const AuditEntry = outputShape(
  'AuditEntry',
  z.object({
    id: z.string().describe('Counts the changes of the yard, from 1 without a gap.'),
    at: z.iso.datetime().describe('When it was committed.'),
    byMemberId: z
      .string()
      .nullable()
      .describe('Null where nobody signed in did it: the worker, or somebody at the server.'),
    byName: z.string().nullable().describe('What that person is called now.'),
    change: auditChangeSchema,
    record: auditRecordSchema,
    key: z.string().describe('Which record: JSON, the fields that tell it from all others.'),
    fields: z
      .array(fieldSchema)
      .describe('What differs; all fields of a record that came or went. Secrets are hidden.'),
    hash: z.string().describe('Hex; over this change and all before it.'),
  }),
);
export const AuditEntryPage = pageShape(AuditEntry);

const asked = z.strictObject({
  record: auditRecordSchema.optional().describe('Of which kind of record.'),
  key: z
    .string()
    .min(1)
    .max(120)
    .regex(/^\P{Cc}*$/u, 'leave out control characters')
    .optional()
    .describe('Of the record with this id, or with it as a part of its key.'),
  member: id.optional().describe('By whom: a person’s id.'),
  change: auditChangeSchema.optional(),
  from: z.iso.datetime({ offset: true }).optional().describe('Then or later.'),
  to: z.iso.datetime({ offset: true }).optional().describe('Before then.'),
});
export const AuditQuery = inputShape('AuditQuery', pageQuerySchema.extend(asked.shape));
/** The same where the page is asked for apart from it. */
export const AuditFilter = inputShape('AuditFilterInput', asked);

export type AuditEntry = z.output<typeof AuditEntry.schema>;
export type AuditQuery = z.output<typeof AuditQuery.schema>;
export type AuditFilter = z.output<typeof AuditFilter.schema>;
