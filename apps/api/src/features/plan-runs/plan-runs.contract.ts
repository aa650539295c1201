import { z } from 'zod';
import { longestSeconds } from '#persistence/queue/plan-runs.ts';
import { runPurposeSchema, runSnapshotSchema, runStatusSchema } from '#persistence/run/snapshot.ts';
import { instant } from '#planning/yard/scalars.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

named('RunStatus', runStatusSchema);
named('RunPurpose', runPurposeSchema);

const standing = {
  ...runSnapshotSchema.shape,
  bestFinish: runSnapshotSchema.shape.bestFinish.describe('When the last refit would be done.'),
  bestLateness: runSnapshotSchema.shape.bestLateness.describe(
    'Weighted minutes late, best so far.',
  ),
  bestFinishes: runSnapshotSchema.shape.bestFinishes.describe('Weighted finishes, minutes.'),
  boundLateness: runSnapshotSchema.shape.boundLateness.describe('No plan can be less late.'),
  boundFinishes: runSnapshotSchema.shape.boundFinishes.describe('No plan can finish earlier.'),
  bestMoney: runSnapshotSchema.shape.bestMoney.describe('Cents, of the best so far.'),
  bestDisturbance: runSnapshotSchema.shape.bestDisturbance.describe(
    'What the best so far moves of the published plan, weighted.',
  ),
  boundMoney: runSnapshotSchema.shape.boundMoney.describe(
    'No plan that is as early can cost less.',
  ),
  boundDisturbance: runSnapshotSchema.shape.boundDisturbance.describe(
    'No plan that is as early and as cheap can move less.',
  ),
  gap: runSnapshotSchema.shape.gap.describe(
    'How far the best may be from the best possible, as a share of the time the refits take.',
  ),
  firstPlanMs: runSnapshotSchema.shape.firstPlanMs.describe(
    'Milliseconds of computing before the first plan was there; known once the run has ended.',
  ),
};

export const RunProgress = outputShape(
  'RunProgress',
  z.object({
    eventId: z.string().describe('Last-Event-ID to go on from.'),
    runId: z.string(),
    at: z.iso.datetime(),
    ...standing,
  }),
);

const RunFault = outputShape(
  'RunFault',
  z.object({ code: z.string(), path: z.string(), message: z.string(), cure: z.string() }),
);

export const PlanRun = outputShape(
  'PlanRun',
  z.object({
    id: z.string(),
    requestedBy: z.string().nullable(),
    purpose: runPurposeSchema.describe('`disturbance`: something happened.'),
    cause: z.array(z.string()).describe('What happened, where that is its purpose.'),
    seed: z.int(),
    seconds: z.number().nullable().describe('The time it may take.'),
    iterationLimit: z.int().nullable(),
    notBefore: z.iso
      .datetime()
      .nullable()
      .describe('Nothing that waits is planned earlier; null for the first moment of the yard.'),
    attempts: z.int().describe('Above 1 where a worker died with it.'),
    ...standing,
    why: z.array(z.string()).describe('Why there is no plan, in words.'),
    faults: z.array(RunFault.schema).describe('What keeps the yard from being planned.'),
    createdAt: z.iso.datetime(),
    startedAt: z.iso.datetime().nullable(),
    finishedAt: z.iso.datetime().nullable(),
    revision,
  }),
);
export const PlanRunPage = pageShape(PlanRun);

export const PlanRunInput = inputShape(
  'PlanRunInput',
  z.strictObject({
    seconds: z.number().min(0.1).max(longestSeconds).optional().describe('10 unless told.'),
    iterations: z
      .int()
      .min(1)
      .max(2_000_000_000)
      .optional()
      .describe('With the same seed and yard the plan is then the same.'),
    seed: z.int().min(0).max(2_147_483_647).default(0),
    notBefore: instant
      .optional()
      .describe('Unless told: now, or where the yard’s plan lies in another time, its beginning.'),
  }),
);

export type RunProgress = z.output<typeof RunProgress.schema>;
export type PlanRun = z.output<typeof PlanRun.schema>;
export type PlanRunInput = z.output<typeof PlanRunInput.schema>;
