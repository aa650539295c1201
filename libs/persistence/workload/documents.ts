import { z } from 'zod';
import {
  momentSchema,
  preparationSchema,
  quantitySchema,
  stepSchema,
} from '#planning/yard/procedures.ts';
import type { Task, TaskHold } from '#planning/workload/workload.ts';

/** The parts of a task that are kept as documents, as they are read back. */
export const holdList: z.ZodType<TaskHold[]> = z.array(
  z.strictObject({
    id: z.string(),
    tool: z.string(),
    count: z.int(),
    until: z.array(
      z.discriminatedUnion('kind', [
        ...momentSchema.options,
        z.strictObject({
          kind: z.literal('task'),
          task: z.string(),
          anchor: z.enum(['start', 'finish']),
        }),
      ]),
    ),
  }),
);

export const consumptionList: z.ZodType<Task['consumes'][number][]> = z.array(
  z.strictObject({ stock: z.string(), amount: z.number() }),
);

export const quantityOrNull = quantitySchema.nullable();
export const preparationList = z.array(preparationSchema);
export const bondingWord = stepSchema.shape.bonding.unwrap();
