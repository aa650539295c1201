import { z } from 'zod';
import { claimStates } from '#live/life/life.ts';
import { taskStandings } from '#live/life/stands.ts';
import { id } from '#planning/yard/scalars.ts';
import { named } from '../../platform/shapes/names.ts';

/** Shared by the ready list and the claims, and named before either nests it. */
export const personSchema = named('Claimant', z.object({ id, name: z.string() }));

export const claimStatusSchema = named('ClaimStatus', z.enum(claimStates));

export const taskStandingSchema = named('TaskStanding', z.enum(taskStandings));
