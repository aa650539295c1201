import { z } from 'zod';
import { boatSchema } from './boats.ts';
import { materialSchema } from './materials.ts';
import { personSchema, skillSchema } from './people.ts';
import { procedureSchema } from './procedures.ts';
import { id, instant, name } from './scalars.ts';
import { deliverySchema, slotListSchema } from './outside.ts';
import { barrierSchema, outdoorSchema, spaceSchema, stockSchema, toolSchema } from './spaces.ts';

/** The yard file, version 1: one business with everything a plan needs. */
export const yardSchema = z.strictObject({
  format: z.literal('curewright-yard'),
  version: z.literal(1),
  id,
  name,
  timeZone: z.string().min(1).describe('IANA zone, e.g. Europe/London'),
  /** Plans begin here unless told otherwise, and look so many days ahead. */
  planFrom: instant,
  horizonDays: z.int().min(1).max(366).default(60),
  currency: z
    .string()
    .regex(/^[A-Z]{3}$/, 'use three capital letters')
    .default('EUR')
    .describe('ISO 4217; amounts are in hundredths of it'),
  /** What a plan may cost more, in cents, where that moves less of the published plan. */
  moneyTolerance: z.int().min(0).max(1_000_000_000).default(5000),
  outdoor: outdoorSchema.nullable().default(null),
  skills: z.array(skillSchema).default([]),
  people: z.array(personSchema).default([]),
  spaces: z.array(spaceSchema).default([]),
  tools: z.array(toolSchema).default([]),
  stocks: z.array(stockSchema).default([]),
  barriers: z.array(barrierSchema).default([]),
  slotLists: z.array(slotListSchema).default([]),
  deliveries: z.array(deliverySchema).default([]),
  materials: z.array(materialSchema).default([]),
  procedures: z.array(procedureSchema).default([]),
  boats: z.array(boatSchema).default([]),
});

export type Yard = z.infer<typeof yardSchema>;
export type YardInput = z.input<typeof yardSchema>;
