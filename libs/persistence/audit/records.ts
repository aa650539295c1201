import { z } from 'zod';

/** What changes of a yard's are written down about, in the words of the trade. */
export const auditRecordSchema = z.enum([
  'yard',
  'skill',
  'member',
  'member-skill',
  'weekly-shift',
  'shift-exception',
  'exception-shift',
  'invitation',
  'program-key',
  'space',
  'set-point',
  'dust-reach',
  'outdoor',
  'tool',
  'stock',
  'barrier',
  'barrier-block',
  'slot-list',
  'delivery',
  'material',
  'material-version',
  'cure-table',
  'fabric',
  'reading',
  'observation',
  'procedure',
  'boat',
  'refit',
  'part',
  'part-layer',
  'job',
  'job-after',
  'job-join',
  'job-wait',
  'task',
  'task-crew',
  'task-tool',
  'task-link',
  'task-choice',
  'task-branch',
  'branch-task',
  'branch-link',
  'claim',
  'claim-member',
  'plan-run',
  'plan',
  'published-plan',
  'publishing',
  'candidate',
  'snag',
  'snag-photo',
  'change-order',
  'proposal',
  'rework',
  'calendar-link',
]);
export type AuditRecord = z.infer<typeof auditRecordSchema>;

export const auditChangeSchema = z.enum(['insert', 'update', 'delete']);
export type AuditChange = z.infer<typeof auditChangeSchema>;

/** The table of a record, and back. */
export const tableOf = (record: AuditRecord): string => record.replaceAll('-', '_');
export const recordOf = (table: string): AuditRecord =>
  auditRecordSchema.parse(table.replaceAll('_', '-'));

/** `hourly_cost` as the rest of the service says it: `hourlyCost`. */
export const wordOf = (column: string): string =>
  column.replaceAll(/_([a-z0-9])/g, (_, letter: string) => letter.toUpperCase());
