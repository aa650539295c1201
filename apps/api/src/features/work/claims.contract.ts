import { z } from 'zod';
import { id, instant } from '#planning/yard/scalars.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import { claimStatusSchema, personSchema } from './people.contract.ts';

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
    claimedAt: instant,
    startedAt: instant.nullable(),
    finishedAt: instant.nullable(),
    releasedAt: instant.nullable(),
    revision,
  }),
);
export type Claim = z.output<typeof Claim.schema>;
export const ClaimPage = pageShape(Claim);

/** Who does it; left out, the caller alone. The foreman may claim for others. */
export const ClaimInput = inputShape(
  'ClaimInput',
  z.strictObject({ crew: z.array(id).min(1).max(50).optional() }),
);
export type ClaimInput = z.output<typeof ClaimInput.schema>;

/** When it really was; left out, now. Never in the future. */
export const MomentOfWorkInput = inputShape(
  'MomentOfWorkInput',
  z.strictObject({ at: instant.optional() }),
);
export type MomentOfWorkInput = z.output<typeof MomentOfWorkInput.schema>;

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
