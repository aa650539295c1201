import { z } from 'zod';
import { trustSchema } from '#planning/questions/trust.ts';
import { fabricSchema } from '#planning/yard/materials.ts';
import { named } from '../../platform/shapes/names.ts';
import { outputShape } from '../../platform/shapes/shape.ts';
import { effective, lowAndHigh } from '../../effective-sheet.ts';
import { id } from '#planning/yard/scalars.ts';
import '../../shape-names.ts';

/** One and the same with `npm run plan`: it comes with the program, and not from the yard. */
const catalogue = z.string().describe('The version of the catalogue.');

export const MaterialClass = outputShape('MaterialClass', z.object({ id, ...effective }));

export const ClassList = outputShape(
  'MaterialClassList',
  z.object({ catalogue, items: z.array(MaterialClass.schema) }),
);

export const CatalogueFabrics = outputShape(
  'CatalogueFabricList',
  z.object({
    catalogue,
    items: z.array(
      named(
        'CatalogueFabric',
        fabricSchema.extend({
          trust: trustSchema,
          /** Resin ratios that suppliers print for it. */
          published: lowAndHigh,
        }),
      ),
    ),
  }),
);

export type MaterialClass = z.output<typeof MaterialClass.schema>;
export type ClassList = z.output<typeof ClassList.schema>;
export type CatalogueFabrics = z.output<typeof CatalogueFabrics.schema>;
