import type { Assignment, Placement } from '#scheduling/model/plan.ts';
import type { Problem } from '#scheduling/model/problem.ts';
import { finishesOf, placementsOf, type OraclePlan } from '../../../oracle/plan.ts';
import { waysOf } from '../../../oracle/ways/ways.ts';
import type { Texts } from '../../../support/minizinc/solve.ts';
import { shopOf } from './shop.ts';

/** A model for a general solver, and how to read what it prints of a solution. */
export interface PeerModel {
  readonly texts: Texts;
  readonly value: (output: string) => number;
  /** The solution as a plan, to be judged. */
  readonly plan: (output: string) => OraclePlan;
}

/** Where nothing can do: to be told apart from a model that was not understood. */
export const HOPELESS = 'constraint false; solve satisfy; output ["0"];';

/** What a model of a benchmark file prints; modes from 1, `serves` by activity, person and skill. */
export const printed = (starts: string, modes: string, serves: string): string =>
  `output ["[\\(makespan), \\(${starts}), \\(${modes}), \\(${serves})]"];`;

interface Printed {
  readonly makespan: number;
  readonly starts: readonly number[];
  readonly modes: readonly number[];
  readonly serves: readonly number[];
}

function read(output: string): Printed {
  const [makespan, starts, modes, serves] = JSON.parse(output) as [
    number,
    number[],
    number[],
    number[],
  ];
  return { makespan, starts, modes, serves };
}

/** Who serves what, from ones and noughts. */
function crewOf(
  { activities, builders, skills }: Problem,
  a: number,
  serves: Printed['serves'],
): Assignment[] {
  const { crew } = activities[a].modes[0];
  return builders.flatMap((_, builder) =>
    skills.flatMap((_skill, k) => {
      const at = (a * builders.length + builder) * skills.length + k;
      const demand = crew.findIndex(({ skill }) => skill === k);
      return serves[at] === 1 ? [{ builder, demand }] : [];
    }),
  );
}

function placements(problem: Problem, { starts, modes, serves }: Printed): Placement[] {
  if (problem.builders.length === 0 && problem.calendars.length > 0) {
    const ways = waysOf(problem);
    const own = starts.map((_, a) => 1 + ways.findIndex(({ activity }) => activity === a));
    return placementsOf(ways, { ways: own, starts, branches: [], worth: [0, 0] });
  }
  const { durations } = shopOf(problem);
  return starts.map((start, activity) => {
    const mode = modes.length === 0 ? 0 : modes[activity] - 1;
    const finish = start + durations[activity][mode];
    return {
      activity,
      mode,
      start,
      finish,
      segments: finish > start ? [{ start, end: finish }] : [],
      crew: crewOf(problem, activity, serves),
      overtime: false,
      slot: null,
    };
  });
}

/** The model of a benchmark file. */
export const fileModel = (problem: Problem, text: string): PeerModel => ({
  texts: { 'model.mzn': text },
  value: (output) => read(output).makespan,
  plan(output) {
    const own = placements(problem, read(output));
    return { placements: own, branches: [], finishes: finishesOf(problem, own) };
  },
});
