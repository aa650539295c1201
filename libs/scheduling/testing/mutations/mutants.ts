import { random } from '#kernel/random.ts';
import { check } from '../../checker/check.ts';
import type { ViolationKind } from '../../checker/violation.ts';
import type { Planted } from '../planted.ts';
import { dust } from './air.ts';
import type { Mutant, Mutation } from './edit.ts';
import { lagClose, lagOpen } from './lags.ts';
import { fixed, forbiddenStart, horizon, release } from './moments.ts';
import { crewCount, crewSkill, crewTwice, shift } from './people.ts';
import {
  absent,
  branch,
  duplicate,
  duration,
  form,
  missing,
  mode,
  segments,
  values,
} from './shape.ts';
import { resource } from './supply.ts';

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
  shift,
  'crew-count': crewCount,
  'crew-skill': crewSkill,
  'crew-twice': crewTwice,
  release,
  horizon,
  'forbidden-start': forbiddenStart,
  'lag-open': lagOpen,
  'lag-close': lagClose,
  resource,
  dust,
  fixed,
  values,
};

/**
 * At most `count` mutants of one kind over the sources in turn, each accepted before its
 * mutation: a problem that could not be made tight around the plan (the probe met
 * something else) gives none. Fewer where `tries` do not suffice.
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
