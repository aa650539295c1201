import { z } from 'zod';
import { outdoorSchema } from '#planning/yard/spaces.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import { named } from '../../platform/shapes/names.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

/** The yard itself, without what belongs to it. */
const head = yardSchema.pick({
  id: true,
  name: true,
  timeZone: true,
  planFrom: true,
  horizonDays: true,
  currency: true,
  moneyTolerance: true,
  cupShare: true,
  powerWatts: true,
  consumables: true,
});

export const Yard = outputShape('Yard', head.extend({ revision }));
export const YardList = outputShape('YardList', z.object({ items: z.array(Yard.schema) }));
export const YardWarnings = outputShape(
  'YardWarnings',
  z.object({
    items: z.array(
      named(
        'YardWarning',
        z.object({
          path: z.string().describe('In the yard file.'),
          message: z.string(),
          source: z.string().nullable(),
        }),
      ),
    ),
  }),
);
export const YardPatch = inputShape('YardPatch', patchOf(head.omit({ id: true })));
/** The whole yard file, as `npm run plan` takes it. */
export const YardFileInput = inputShape('YardFileInput', yardSchema);
export const OutdoorInput = inputShape('OutdoorInput', outdoorSchema);
export const Outdoor = outputShape('Outdoor', outdoorSchema.extend({ revision }));

export type Yard = z.output<typeof Yard.schema>;
export type YardList = z.output<typeof YardList.schema>;
export type YardWarnings = z.output<typeof YardWarnings.schema>;
export type YardPatch = z.output<typeof YardPatch.schema>;
export type YardFile = z.output<typeof YardFileInput.schema>;
export type Outdoor = z.output<typeof Outdoor.schema>;
export type OutdoorInput = z.output<typeof OutdoorInput.schema>;
