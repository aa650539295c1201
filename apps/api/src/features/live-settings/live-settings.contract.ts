import { z } from 'zod';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

const settings = z.object({
  undoMinutes: z
    .int()
    .min(0)
    .max(1440)
    .describe('For so long whoever reported work may take it back; 0: only the foreman may.'),
  leaseSeconds: z
    .int()
    .min(1)
    .max(604_800)
    .describe('A claim that nobody starts within it is free again.'),
  publishMovesUpTo: z
    .int()
    .min(0)
    .max(1_000_000)
    .nullable()
    .describe(
      'A candidate plan that moves no more tasks than that is published at once; null: none is, the foreman decides.',
    ),
});

export const LiveSettings = outputShape('LiveSettings', settings.extend({ revision }));
export type LiveSettings = z.output<typeof LiveSettings.schema>;

export const LiveSettingsPatch = inputShape('LiveSettingsPatch', patchOf(settings));
export type LiveSettingsPatch = z.output<typeof LiveSettingsPatch.schema>;
