import { z } from 'zod';
import { whenSchema } from '#persistence/plan/when-shape.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const ClimateQuery = inputShape(
  'ClimateQuery',
  z.strictObject({
    from: instant,
    until: instant.describe('At most 31 days later.'),
    material: id.optional().describe('Whether it may be applied then is said besides.'),
  }),
);

const known = named(
  'KnownTemperature',
  z.object({ cold: z.number(), expected: z.number(), warm: z.number() }),
);

export const SpaceClimate = outputShape(
  'SpaceClimate',
  z.object({
    spaceId: id,
    materialId: id.nullable(),
    hours: z.array(
      named(
        'ClimateHour',
        z.object({
          when: whenSchema,
          air: known,
          surface: known,
          humidity: z.number().nullable().describe('Percent; null: not known.'),
          dewPointC: z.number().nullable(),
          marginC: z.number().nullable().describe('Of the surface above the dew point.'),
          leastMarginC: z.number().nullable().describe('The same, as cold as it may be.'),
          assumed: z.boolean().describe('The outdoor table does not say: a day is repeated.'),
          verdict: named('AirVerdict', z.enum(['fine', 'warn', 'refuse', 'unknown'])).nullable(),
          reasons: z.array(z.string()),
          mouldingShop: z
            .array(z.string())
            .describe('In what it falls short of a class rule for moulding shops.'),
        }),
      ),
    ),
  }),
);

export type ClimateQuery = z.output<typeof ClimateQuery.schema>;
export type SpaceClimate = z.output<typeof SpaceClimate.schema>;
