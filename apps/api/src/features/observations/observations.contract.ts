import { z } from 'zod';
import { phoneTimes } from '#live/life/phone.ts';
import { tackTestSchema } from '#live/reports/tack-test.ts';
import { milestoneSchema } from '#planning/yard/materials.ts';
import { observationSchema } from '#planning/yard/observed.ts';
import { id } from '#planning/yard/scalars.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const Observation = outputShape('Observation', observationSchema);
export const ObservationPage = pageShape(Observation);
export const ObservationInput = inputShape(
  'NewObservationInput',
  observationSchema.extend({
    id: id.optional().describe('Left out: the service gives it one.'),
    sentAt: phoneTimes.sentAt,
  }),
);

export const TackTestInput = inputShape(
  'TackTestInput',
  tackTestSchema.omit({ taskId: true }).extend(phoneTimes),
);
export const TackTested = outputShape(
  'TackTested',
  z.object({
    items: z.array(observationSchema).describe('What the test says of the film’s milestones.'),
  }),
);

const asked = z.strictObject({ material: id.optional() });
export const ObservationsQuery = inputShape(
  'ObservationsQuery',
  pageQuerySchema.extend(asked.shape),
);
/** The same where the page is asked for apart from it. */
export const ObservationsFilter = inputShape('ObservationsFilterInput', asked);

const judged = named(
  'JudgedObservation',
  z.object({
    observationId: id,
    found: observationSchema.shape.found,
    age: z
      .number()
      .describe('How far its clock had come by the sheet: 1 when the sheet says it is reached.'),
    flag: named('ObservationFlag', z.enum(['outlier', 'contradicts', 'implied']))
      .nullable()
      .describe('Why it was left out; null where it counts.'),
    words: z.string(),
  }),
);

const factorAndSpread = named(
  'FactorAndSpread',
  z.object({
    factor: z.number(),
    spread: z.number().describe('A factor: the truth is between factor / spread and × spread.'),
  }),
);

export const MaterialCalibration = outputShape(
  'MaterialCalibration',
  z.object({
    materialId: id,
    milestones: z
      .array(
        named(
          'MilestoneCalibration',
          z.object({
            milestone: milestoneSchema,
            factor: z.number().describe('On all times of the milestone; 1: as on the sheet.'),
            spread: z.number(),
            /** Those of the sheet alone. */
            prior: factorAndSpread,
            evidence: z.array(judged),
          }),
        ),
      )
      .describe('Those that something was observed of and the sheet has a number for.'),
    massPower: named(
      'MassFit',
      z.object({
        power: z.number().describe('Pot life goes with the mass to minus this power.'),
        error: z.number().describe('Standard error of the power.'),
        factor: z.number(),
        spread: z.number().describe('How far single cups are from the law, as a factor.'),
        words: z.string(),
      }),
    )
      .nullable()
      .describe('Of the yard’s own cups; null where they do not say, or the yard states it.'),
    unused: z
      .array(id)
      .describe('Observations of milestones that the sheet has no number for: nothing to correct.'),
  }),
);

export type Observation = z.output<typeof Observation.schema>;
export type ObservationInput = z.output<typeof ObservationInput.schema>;
export type TackTestInput = z.output<typeof TackTestInput.schema>;
export type TackTested = z.output<typeof TackTested.schema>;
export type ObservationsQuery = z.output<typeof ObservationsQuery.schema>;
export type ObservationsFilter = z.output<typeof ObservationsFilter.schema>;
export type MaterialCalibration = z.output<typeof MaterialCalibration.schema>;
