import type { z } from 'zod';
import { procedureSchema } from '#planning/yard/procedures.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const Procedure = outputShape('Procedure', procedureSchema);
export const ProcedurePage = pageShape(Procedure);
/** Versions are numbered here: the first is 1. */
export const ProcedureInput = inputShape(
  'NewProcedureInput',
  procedureSchema.omit({ version: true }),
);
/** What a version says. */
export const ProcedureDraftInput = inputShape(
  'ProcedureDraftInput',
  procedureSchema.omit({ id: true, version: true }),
);
export const ProcedureVersionInput = inputShape(
  'ProcedureVersionInput',
  ProcedureDraftInput.schema.extend({
    fromVersion: procedureSchema.shape.version
      .optional()
      .describe(
        'The version that this one was written from: refused as stale where there is a newer one. Left out: it comes after whichever is there.',
      ),
  }),
);

export type Procedure = z.output<typeof Procedure.schema>;
export type ProcedureInput = z.output<typeof ProcedureInput.schema>;
export type ProcedureVersionInput = z.output<typeof ProcedureVersionInput.schema>;
