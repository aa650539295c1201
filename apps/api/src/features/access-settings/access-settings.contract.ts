import { z } from 'zod';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

const settings = z.object({
  secondFactorRequired: z
    .boolean()
    .describe(
      'Members come into the yard only in a session in which a second factor was shown. Switching it on ends the program keys that there are.',
    ),
  ownersSeeCrew: z.boolean().describe('Owners read who works on their boat.'),
});

export const AccessSettings = outputShape('AccessSettings', settings.extend({ revision }));
export type AccessSettings = z.output<typeof AccessSettings.schema>;

export const AccessSettingsPatch = inputShape('AccessSettingsPatch', patchOf(settings));
export type AccessSettingsPatch = z.output<typeof AccessSettingsPatch.schema>;
