import type { Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import { air } from './air.ts';
import { barriers } from './barriers.ts';
import { crew } from './crew.ts';
import { duration } from './duration.ts';
import { lags } from './lags.ts';
import { moments } from './moments.ts';
import { locations, parts } from './parts.ts';
import { presence } from './presence.ts';
import { read } from './reading.ts';
import { resources } from './resources.ts';
import { shifts } from './shifts.ts';
import { slots } from './slots.ts';
import { stocks } from './stocks.ts';
import { values } from './values.ts';
import type { Violation } from './violation.ts';

const rules = [
  presence,
  duration,
  shifts,
  crew,
  moments,
  slots,
  lags,
  resources,
  stocks,
  parts,
  locations,
  barriers,
  air,
  values,
] as const;

/**
 * Everything that is wrong with a plan for a problem; empty where the plan is right.
 * Reads the two and shares nothing with the search. The problem must be valid
 * (`validate` finds no fault); the plan may be anything of its shape.
 */
export function check(problem: Problem, plan: Plan): readonly Violation[] {
  const reading = read(problem, plan);
  return rules.flatMap((rule) => rule(reading));
}
