import { z } from 'zod';
import { overrideInputSchema } from '#live/life/commands.ts';
import { phoneClock, phoneTimes } from '#live/life/phone.ts';
import { reportCommandSchema } from '#live/reports/commands.ts';
import { id } from '#planning/yard/scalars.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';
import { Claim } from '../work/work.service.ts';

named('ReportCommand', reportCommandSchema);

const moment = z.iso.datetime({ offset: true });

/** The phone's own name of a report, a UUID say: the same again is the same report. */
const key = z.string().regex(/^[\x21-\x7e]{1,200}$/, 'use 1 to 200 visible characters');

/** One thing done, as the phone tells it. */
const given = named(
  'NewReport',
  z.strictObject({
    key,
    at: phoneClock.describe('When it was, by the phone’s clock.'),
    command: reportCommandSchema,
  }),
);
export type GivenReport = z.output<typeof given>;
export const givenReportSchema = given;

const mostReports = 200;

/** A phone's queue. It is carried out in the order of its moments, each report by itself. */
export const ReportsInput = inputShape(
  'ReportsInput',
  z.strictObject({
    sentAt: phoneTimes.sentAt,
    reports: z.array(given).min(1).max(mostReports),
  }),
);
export type ReportsInput = z.output<typeof ReportsInput.schema>;

/** The queue as REST takes it: what is wrong with one report is said of that one. */
export const queueSchema = ReportsInput.schema.extend({
  reports: z.array(z.unknown()).min(1).max(mostReports),
});

export const reasonsSchema = z.array(
  named(
    'ReportReason',
    z.object({
      code: z.string().describe('From the catalogue of errors.'),
      path: z.string().describe('Into the report; empty for the whole.'),
      message: z.string(),
      cure: z.string(),
    }),
  ),
);
export type Reasons = z.output<typeof reasonsSchema>;

const outcomes = ['done', 'held', 'dismissed'] as const;
/** `held`: it contradicts what is known. What it waits for may yet arrive, or the foreman settles it. */
export const outcomeSchema = named('ReportOutcome', z.enum(outcomes));
export type Outcome = z.output<typeof outcomeSchema>;

export const Report = outputShape(
  'Report',
  z.object({
    id,
    key,
    member: named('Reporter', z.object({ id, name: z.string() })),
    command: reportCommandSchema,
    phoneAt: moment.describe('As the phone said.'),
    phoneSentAt: moment.nullable(),
    receivedAt: moment,
    at: moment.describe('When it was, by the service’s clock.'),
    outcome: outcomeSchema,
    reasons: reasonsSchema.describe('Why it is held; empty of what is done.'),
    claim: Claim.schema.nullable().describe('As it was when the report had been carried out.'),
    settledById: id.nullable(),
    settledAt: moment.nullable(),
    note: z.string().describe('Of the foreman who settled it.'),
    revision,
  }),
);
export type Report = z.output<typeof Report.schema>;
export const ReportPage = pageShape(Report);

export const TakenReports = outputShape(
  'TakenReports',
  z.object({
    items: z
      .array(
        named(
          'TakenReport',
          z.object({
            key: z.string().nullable().describe('Null where the report had none.'),
            outcome: named(
              'TakenOutcome',
              z
                .enum([...outcomes, 'refused'])
                .describe('Refused: not kept, since it cannot be understood; the others are.'),
            ),
            reasons: reasonsSchema,
            report: Report.schema.nullable().describe('Null of what was refused.'),
          }),
        ),
      )
      .describe('One for each that was sent, in the order sent.'),
  }),
);
export type TakenReports = z.output<typeof TakenReports.schema>;
export type TakenReport = TakenReports['items'][number];

const asked = z.strictObject({
  outcome: outcomeSchema.optional(),
  member: id.optional().describe('Whose phone told it.'),
});
export const ReportsQuery = inputShape('ReportsQuery', pageQuerySchema.extend(asked.shape));
export type ReportsQuery = z.output<typeof ReportsQuery.schema>;
/** The same where the page is asked for apart from it. */
export const ReportsFilter = inputShape('ReportsFilterInput', asked);
export type ReportsFilter = z.output<typeof ReportsFilter.schema>;

/** What becomes of a held report: it is carried out on the foreman's word, or not at all. */
export const SettleInput = inputShape(
  'SettleReportInput',
  z
    .strictObject({
      as: named('SettleAs', z.enum(['done', 'dismissed'])),
      ...phoneTimes,
      override: overrideInputSchema
        .optional()
        .describe('Of a start that the service advises against.'),
      note: z.string().trim().max(1000).default(''),
    })
    .refine(({ as, note }) => as === 'done' || note !== '', {
      path: ['note'],
      message: 'say why it is dismissed: whoever reported it will read this',
    }),
);
export type SettleInput = z.output<typeof SettleInput.schema>;
