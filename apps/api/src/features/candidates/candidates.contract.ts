import '../../shape-names.ts';
import { z } from 'zod';
import { candidateStateSchema } from '#persistence/plan/candidates.ts';
import {
  boatDifferenceSchema,
  differenceSchema,
  personDifferenceSchema,
  taskDifferenceSchema,
  windowDifferenceSchema,
  windowsDifferenceSchema,
} from '#persistence/plan/difference-shape.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

named('CandidateState', candidateStateSchema);
named('BoatDifference', boatDifferenceSchema);
named('TaskDifference', taskDifferenceSchema);
named('TaskDifferenceKind', taskDifferenceSchema.shape.kind);
named('PersonDifference', personDifferenceSchema);
named('WindowDifference', windowDifferenceSchema);
named('WindowsDifference', windowsDifferenceSchema);

const fields = {
  planId: z.string(),
  basePlanId: z.string().nullable().describe('The published plan that it is to take the place of.'),
  state: candidateStateSchema,
  cause: z.array(z.string()).describe('What happened.'),
  moved: z.int().describe('Tasks at another time, with other people, new or gone.'),
  disturbance: z.number().describe('The same, weighted: what is near counts more.'),
  createdAt: z.iso.datetime(),
  decidedBy: z.string().nullable().describe('Null: nobody yet, or the service by itself.'),
  decidedAt: z.iso.datetime().nullable(),
  revision,
};

export const Candidate = outputShape('Candidate', z.object(fields));
export const CandidatePage = pageShape(Candidate);

/** All that the foreman decides by. */
export const CandidateView = outputShape(
  'CandidateView',
  z.object({
    ...fields,
    since: z
      .array(z.string())
      .describe('What it does not know, while it is open: with that it cannot be published.'),
    words: differenceSchema.shape.words.describe('What it changes, in sentences.'),
    boats: differenceSchema.shape.boats,
    windows: differenceSchema.shape.windows,
  }),
);

export const PlanDifference = outputShape(
  'PlanDifference',
  z.object({
    planId: z.string(),
    fromPlanId: z.string(),
    ...differenceSchema.shape,
  }),
);

export const CandidatesQuery = inputShape(
  'CandidatesQuery',
  pageQuerySchema.extend({ state: candidateStateSchema.optional() }),
);

export const DifferenceQuery = inputShape(
  'DifferenceQuery',
  z.strictObject({
    from: z
      .string()
      .max(100)
      .optional()
      .describe('The plan it is held against; unless told the published one.'),
  }),
);

/** That a plan is being made, and what for. */
export const ReplanRequest = outputShape(
  'ReplanRequest',
  z.object({ runId: z.string(), cause: z.array(z.string()) }),
);

export type Candidate = z.output<typeof Candidate.schema>;
export type CandidateView = z.output<typeof CandidateView.schema>;
export type CandidatesQuery = z.output<typeof CandidatesQuery.schema>;
export type PlanDifference = z.output<typeof PlanDifference.schema>;
export type DifferenceQuery = z.output<typeof DifferenceQuery.schema>;
export type ReplanRequest = z.output<typeof ReplanRequest.schema>;
