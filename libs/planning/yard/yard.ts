import { z } from 'zod';
import { boatSchema } from './boats.ts';
import { fabricSchema, materialSchema } from './materials.ts';
import { observationSchema, readingSchema } from './observed.ts';
import { personSchema, skillSchema } from './people.ts';
import { consumableSchema, procedureSchema } from './procedures.ts';
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
  /** A cup is to be spread within this percentage of its pot life. */
  cupShare: z.int().min(5).max(95).default(50),
  /** What all heaters and the like may draw together, watts; null: not limited. */
  powerWatts: z.int().min(0).max(10_000_000).nullable().default(null),
  /** What preparation uses up; none: the library's common practice. */
  consumables: z.array(consumableSchema).default([]),
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
  fabrics: z.array(fabricSchema).default([]),
  readings: z.array(readingSchema).default([]),
  observations: z.array(observationSchema).default([]),
  procedures: z.array(procedureSchema).default([]),
  boats: z.array(boatSchema).default([]),
});

export type Yard = z.infer<typeof yardSchema>;
export type YardInput = z.input<typeof yardSchema>;
