import { closeRoot } from '../exact/layout.ts';
import { makespanOf, type PureModel } from '../exact/pure.ts';
import { Evolution } from './evolution.ts';
import { toLagged } from './to-lagged.ts';
import { toProject } from './to-project.ts';
import { NO_PLAN, type Scheme } from './scheme.ts';

/** The scheme of a model; null if the root closure shows that it has no plan. */
export function schemeOf(model: PureModel): Scheme | null {
  const project = toProject(model);
  if (project !== null) return project;
  const root = closeRoot(model, model.horizon);
  return root === null ? null : toLagged(model, root.distances);
}

/** The best plan of a population search. */
interface Improved {
  readonly makespan: number;
  readonly starts: Int32Array;
  /** Generation passes done, justification counted: fewer than allowed if no plan can be shorter. */
  readonly schedules: number;
}

/** A population search of at most `schedules` generation passes. Null: it found no plan. */
export function improve(model: PureModel, seed: number, schedules: number): Improved | null {
  const scheme = schemeOf(model);
  if (scheme === null) return null;
  const evolution = new Evolution(scheme, seed, schedules);
  while (evolution.passes < schedules && evolution.makespan > scheme.least) evolution.advance();
  if (evolution.makespan === NO_PLAN) return null;
  const { starts, passes } = evolution;
  return { makespan: makespanOf(model, starts), starts, schedules: passes };
}
