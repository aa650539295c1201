import type { z } from 'zod';
import { deliverySchema } from '#planning/yard/outside.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

export const Delivery = outputShape('Delivery', deliverySchema.extend({ revision }));
export const DeliveryPage = pageShape(Delivery);
export const DeliveryInput = inputShape('DeliveryInput', deliverySchema);
export const DeliveryPatch = inputShape(
  'DeliveryPatch',
  patchOf(deliverySchema.omit({ id: true })),
);

export type Delivery = z.output<typeof Delivery.schema>;
export type DeliveryInput = z.output<typeof DeliveryInput.schema>;
export type DeliveryPatch = z.output<typeof DeliveryPatch.schema>;
