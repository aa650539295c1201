import { z } from 'zod';
import { boatSchema, jobSchema, partSchema, refitSchema } from '#planning/yard/boats.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

/** From the inside out, so that each nested shape has its name before it is nested. */
export const Job = outputShape(
  'Job',
  jobSchema.extend({
    procedureVersion: z.int().min(1).describe('The version its tasks were made from.'),
    revision,
  }),
);
export const Part = outputShape('Part', partSchema.extend({ jobs: z.array(Job.schema), revision }));
export const Refit = outputShape(
  'Refit',
  refitSchema.extend({ parts: z.array(Part.schema), revision }),
);
export const Boat = outputShape(
  'Boat',
  boatSchema.extend({ refits: z.array(Refit.schema), revision }),
);
export const BoatPage = pageShape(Boat);

export const JobInput = inputShape('JobInput', jobSchema);
export const PartInput = inputShape('PartInput', partSchema);
export const RefitInput = inputShape('RefitInput', refitSchema);
export const BoatInput = inputShape('BoatInput', boatSchema);

/** What a job waits for; the rest of it made its tasks and stays. */
export const JobPatch = inputShape(
  'JobPatch',
  patchOf(jobSchema.pick({ waitsFor: true, words: true })),
);
/** Parents are not changed by these; what is nested has addresses of its own. */
export const PartPatch = inputShape(
  'PartPatch',
  patchOf(partSchema.omit({ id: true, jobs: true })),
);
export const RefitPatch = inputShape(
  'RefitPatch',
  patchOf(refitSchema.omit({ id: true, parts: true })),
);
export const BoatPatch = inputShape(
  'BoatPatch',
  patchOf(boatSchema.omit({ id: true, refits: true })),
);

export type Job = z.output<typeof Job.schema>;
export type Part = z.output<typeof Part.schema>;
export type Refit = z.output<typeof Refit.schema>;
export type Boat = z.output<typeof Boat.schema>;
export type JobInput = z.output<typeof JobInput.schema>;
export type PartInput = z.output<typeof PartInput.schema>;
export type RefitInput = z.output<typeof RefitInput.schema>;
export type BoatInput = z.output<typeof BoatInput.schema>;
export type JobPatch = z.output<typeof JobPatch.schema>;
export type PartPatch = z.output<typeof PartPatch.schema>;
export type RefitPatch = z.output<typeof RefitPatch.schema>;
export type BoatPatch = z.output<typeof BoatPatch.schema>;
