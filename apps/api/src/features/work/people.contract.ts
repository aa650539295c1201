import { z } from 'zod';
import { id } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';

/** Shared by the ready list and the claims, and named before either nests it. */
export const personSchema = named('Claimant', z.object({ id, name: z.string() }));

export const claimStatusSchema = named(
  'ClaimStatus',
  z.enum(['open', 'working', 'finished', 'released']),
);
