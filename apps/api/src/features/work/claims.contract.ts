import { z } from 'zod';
import { workCommands } from '#live/life/commands.ts';
import { phoneTimes } from '#live/life/phone.ts';
import { id } from '#planning/yard/scalars.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import { claimStatusSchema, personSchema } from './people.contract.ts';

/** Of work the whole minute; when a task was taken and until when that holds, to the second. */
const moment = z.iso.datetime({ offset: true });

export const Claim = outputShape(
  'Claim',
  z.object({
    id,
    taskId: id,
    task: z.string(),
    part: z.string(),
    boat: z.string(),
    holder: personSchema,
    crew: z.array(personSchema),
    status: claimStatusSchema,
    claimedAt: moment,
    lapsesAt: moment
      .nullable()
      .describe('When it is over if nobody has begun; null of one that was begun.'),
    startedAt: moment.nullable(),
    finishedAt: moment.nullable(),
    releasedAt: moment.nullable().describe('Given back, or lapsed.'),
    override: named('Override', z.object({ reason: z.string(), byId: id }))
      .nullable()
      .describe('Why the foreman had it begun against what the service advised.'),
    revision,
  }),
);
export type Claim = z.output<typeof Claim.schema>;
export const ClaimPage = pageShape(Claim);

const fields = workCommands;

/** Who does it; left out, the caller alone. The foreman may claim for others. */
export const ClaimInput = inputShape(
  'ClaimInput',
  z.strictObject({ crew: fields.claim.shape.crew, ...phoneTimes }),
);
export type ClaimInput = z.output<typeof ClaimInput.schema>;

/** When it really was; left out, now. Never in the future. */
export const MomentOfWorkInput = inputShape('MomentOfWorkInput', z.strictObject(phoneTimes));
export type MomentOfWorkInput = z.output<typeof MomentOfWorkInput.schema>;

/** Who joins or leaves; left out, the caller. The foreman may send others. */
export const CrewChangeInput = inputShape(
  'CrewChangeInput',
  z.strictObject({ member: fields.join.shape.member, ...phoneTimes }),
);
export type CrewChangeInput = z.output<typeof CrewChangeInput.schema>;

export const StartInput = inputShape(
  'StartInput',
  z.strictObject({
    override: fields.start.shape.override.describe(
      'The foreman’s: begun against what the service advises, and why.',
    ),
    ...phoneTimes,
  }),
);
export type StartInput = z.output<typeof StartInput.schema>;

/** What is left of it; left out, what the hours that were worked leave. */
export const LeftInput = inputShape(
  'LeftInput',
  z.strictObject({ leftMinutes: fields.pause.shape.leftMinutes, ...phoneTimes }),
);
export type LeftInput = z.output<typeof LeftInput.schema>;

export const ProgressInput = inputShape(
  'ProgressInput',
  z.strictObject({ leftMinutes: fields.progress.shape.leftMinutes, ...phoneTimes }),
);
export type ProgressInput = z.output<typeof ProgressInput.schema>;

export const ReasonInput = inputShape(
  'ReasonInput',
  z.strictObject({ reason: fields.abandon.shape.reason, ...phoneTimes }),
);
export type ReasonInput = z.output<typeof ReasonInput.schema>;

const filterFields = {
  mine: z
    .string()
    .regex(/^(true|false|)$/, 'use true or false')
    .optional()
    .describe('Only those whose crew the caller is in: `?mine`.'),
  status: claimStatusSchema.optional(),
};
export const ClaimsQuery = inputShape('ClaimsQuery', pageQuerySchema.extend(filterFields));
export type ClaimsQuery = z.output<typeof ClaimsQuery.schema>;

export interface ClaimsWanted {
  readonly mine: boolean;
  readonly status: z.output<typeof claimStatusSchema> | undefined;
}
