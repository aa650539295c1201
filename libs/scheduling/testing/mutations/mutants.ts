import { random } from '#kernel/random.ts';
import { check } from '../../checker/check.ts';
import type { ViolationKind } from '../../checker/violation.ts';
import type { Planted } from '../planted.ts';
import { dust } from './air.ts';
import type { Mutant, Mutation } from './edit.ts';
import { cleanDown, hours, overtime, shift } from './hours.ts';
import { lagClose, lagOpen } from './lags.ts';
import { fixed, forbiddenFinish, forbiddenStart, horizon, release, slot } from './moments.ts';
import { barrier, location, part } from './parts.ts';
import { crewCount, crewSkill, crewTwice, senior } from './people.ts';
import { absent, branch, duplicate, form, missing, mode, values } from './shape.ts';
import { duration, segments } from './spans.ts';
import { hold, resource, stock } from './supply.ts';

/** A mutation for each kind of violation. */
export const mutations: Readonly<Record<ViolationKind, Mutation>> = {
  form,
  missing,
  duplicate,
  absent,
  branch,
  mode,
  duration,
  segments,
  overtime,
  shift,
  'clean-down': cleanDown,
  hours,
  'crew-count': crewCount,
  'crew-skill': crewSkill,
  senior,
  'crew-twice': crewTwice,
  release,
  horizon,
  'forbidden-start': forbiddenStart,
  'forbidden-finish': forbiddenFinish,
  slot,
  fixed,
  'lag-open': lagOpen,
  'lag-close': lagClose,
  resource,
  hold,
  stock,
  part,
  location,
  barrier,
  dust,
  values,
};

/**
 * At most `count` mutants of one kind over the sources (problems with any plans of theirs) in
 * turn, each accepted before its mutation: a problem that could not be made tight around the plan
 * (the probe met something else) gives none. Fewer where `tries` do not suffice.
 */
export function mutants(
  kind: ViolationKind,
  sources: readonly Planted[],
  count: number,
  tries: number = 40 * count,
): Mutant[] {
  const found: Mutant[] = [];
  for (let i = 0; i < tries && found.length < count; i++) {
    const mutant = mutations[kind](sources[i % sources.length], random(i));
    if (mutant && check(mutant.before.problem, mutant.before.plan).length === 0) found.push(mutant);
  }
  return found;
}
