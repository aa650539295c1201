import type { Plan } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { create } from '#scheduling/solve.ts';
import { watchSolve, type Solver } from '../../support/minizinc/solve.ts';
import { courseOf, type Course } from './course.ts';
import { complaints } from './judge.ts';
import { fileModel, type PeerModel } from './models/answer.ts';
import { calendarsModel } from './models/calendars.ts';
import { constraintModel } from './models/constraint.ts';
import { linearModel } from './models/linear.ts';
import { refitModel } from './models/refit.ts';
import { skillsModel } from './models/skills.ts';
import { isRefit, peerProblem } from './problems.ts';

export const SOLVERS: readonly Solver[] = ['chuffed', 'gecode', 'highs', 'coin-bc'];

/** Seconds that a peer may flatten before its time to solve begins. */
export const FLATTENING = 60;
/** Iterations of this engine for a first plan, and to mend it: a far horizon is a large model. */
const TRIES = 2000;
const MENDING = 300;

const isLinear = (solver: Solver): boolean => solver === 'highs' || solver === 'coin-bc';

/** Our first plan, which gives the peers their horizon; null where none was found soon. */
function firstPlan(problem: Problem): Plan | null {
  const search = create(problem, 1, null);
  for (let k = 0; k < TRIES; k += 1) {
    const { plan, done } = search.step(1);
    if (plan !== null || done) return done ? plan : search.step(MENDING).plan;
  }
  return null;
}

/** The model for this solver. */
function peerModel(name: string, problem: Problem, solver: Solver): PeerModel {
  const first = firstPlan(problem);
  if (isRefit(name)) return refitModel(problem, first);
  const horizon = first === null ? problem.horizon : first.finishes[0];
  const text = (): string => {
    if (problem.builders.length > 0) return skillsModel(problem, horizon);
    if (problem.calendars.length > 0) return calendarsModel(problem, horizon);
    return isLinear(solver) ? linearModel(problem, horizon) : constraintModel(problem, horizon);
  };
  return fileModel(problem, text());
}

export interface PeerCourse extends Course {
  readonly failure: string | null;
  /** How much is wrong with its best plan, and the first of it. */
  readonly wrong: number;
  readonly complaint: string | null;
}

/** One solve by a general solver in a fresh process. */
export async function byPeer(name: string, solver: Solver, seconds: number): Promise<PeerCourse> {
  const problem = await peerProblem(name);
  const model = peerModel(name, problem, solver);
  const { status, readyAt, flatAt, solutions, statusAt, failure } = await watchSolve(
    model.texts,
    solver,
    seconds,
    FLATTENING,
  );
  const startSeconds = readyAt ?? 0;
  const refuted = status === 'UNSATISFIABLE';
  const optimal = status === 'OPTIMAL_SOLUTION' ? 'optimal' : null;
  // What is refuted in flattening is flattened at that moment.
  const flatUntil = flatAt ?? (refuted ? statusAt : null);
  const course = courseOf({
    startSeconds,
    flatSeconds: flatUntil === null ? null : flatUntil - startSeconds,
    found: solutions.map(({ at, output }) => ({ at, value: model.value(output) })),
    proved: refuted ? 'infeasible' : optimal,
    provedAt: statusAt,
  });
  const best = solutions.at(-1)?.output;
  const wrong = best === undefined ? [] : complaints(problem, model.plan(best), model.value(best));
  return { ...course, failure, wrong: wrong.length, complaint: wrong.at(0) ?? null };
}
