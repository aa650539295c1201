import { z } from 'zod';
import { materialSchema } from '#planning/yard/materials.ts';
import { id } from '#planning/yard/scalars.ts';
import { effective } from '../../effective-sheet.ts';
import { named } from '../../platform/shapes/names.ts';
import { outputShape } from '../../platform/shapes/shape.ts';

export const MaterialSheet = outputShape('MaterialSheet', z.object({ id, ...effective }));

export const MaterialVersionList = outputShape(
  'MaterialVersionList',
  z.object({
    items: z
      .array(
        named(
          'MaterialVersion',
          z.object({
            version: z.int(),
            at: z.iso.datetime(),
            by: z.string().nullable().describe('Null: it came with the yard.'),
            material: named('MaterialBody', materialSchema),
          }),
        ),
      )
      .describe('Newest first.'),
  }),
);

export type MaterialSheet = z.output<typeof MaterialSheet.schema>;
export type MaterialVersionList = z.output<typeof MaterialVersionList.schema>;
