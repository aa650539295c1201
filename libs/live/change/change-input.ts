import { z } from 'zod';
import { partSchema } from '#planning/yard/boats.ts';
import { id } from '#planning/yard/scalars.ts';

export const changeKindSchema = z.enum(['size', 'add-part', 'drop-part']);

const { areaM2, edgeM, jointM } = partSchema.shape;

/** What is wanted otherwise than agreed: new measures of a part, a further part, or one left out. */
export const changeInputSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('size'),
    partId: id,
    areaM2: areaM2.optional().describe('Square metres; left out, as it is.'),
    edgeM: edgeM.unwrap().optional().describe('Metres of edge; left out, as it is.'),
    jointM: jointM.unwrap().optional().describe('Metres of joint; left out, as it is.'),
  }),
  z.strictObject({
    kind: z.literal('add-part'),
    refitId: id,
    part: partSchema.describe('With its jobs: their procedures say what is to be done.'),
  }),
  z.strictObject({ kind: z.literal('drop-part'), partId: id }),
]);
export type ChangeInput = z.output<typeof changeInputSchema>;
