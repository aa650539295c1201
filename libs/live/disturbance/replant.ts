import type { PlanMap } from '#planning/compile/trace/map.ts';
import type { Activity, Problem } from '#scheduling/model/problem.ts';
import type { Placement, Plan } from '#scheduling/model/plan.ts';

/** What a stored plan says of one task: instants, and people by id. */
export interface PlacedTask {
  readonly task: string;
  readonly start: string;
  readonly finish: string;
  readonly segments: readonly { readonly start: string; readonly end: string }[];
  readonly people: readonly { readonly person: string; readonly demand: number }[];
  readonly overtime: boolean;
  readonly slot: number | null;
}

/** The branch that a plan takes of each choice, by ids. */
export interface Taken {
  readonly id: string;
  readonly branch: string;
}

const MINUTE_MS = 60_000;

/** What has begun is where the problem has it. */
function begun(activity: number, { fixed }: Activity): Placement | null {
  if (fixed?.kind !== 'frozen') return null;
  const { start, finish, builders } = fixed;
  if (start === null || finish === null) return null;
  return {
    activity,
    mode: 0,
    start,
    finish,
    segments: start < finish ? [{ start, end: finish }] : [],
    crew: (builders ?? []).map((builder) => ({ builder, demand: 0 })),
    overtime: false,
    slot: null,
  };
}

/** Indices of the branches taken; null where the plan took one that there is no more, or none. */
function branchesOf({ choices }: Problem, taken: readonly Taken[]): number[] | null {
  const branch = new Map(taken.map((one) => [one.id, one.branch]));
  const found = choices.map(({ id, branches }) =>
    branches.findIndex((one) => one.id === branch.get(id)),
  );
  return found.includes(-1) ? null : found;
}

function absentIn({ choices }: Problem, branches: readonly number[]): Set<number> {
  return new Set(
    choices.flatMap((choice, c) =>
      choice.branches.flatMap(({ activities }, b) => (b === branches[c] ? [] : activities)),
    ),
  );
}

/**
 * A stored plan put into the problem of now: what has begun as it was, the rest as planned. Null
 * where it says nothing of work that is to be done, or names who or what there is no more. Whether
 * it is a right plan of the problem is the checker's to say, who also knows its values.
 */
export function replanted(
  problem: Problem,
  map: PlanMap,
  placed: readonly PlacedTask[],
  taken: readonly Taken[],
): Omit<Plan, 'values'> | null {
  const branches = branchesOf(problem, taken);
  if (branches === null) return null;
  const absent = absentIn(problem, branches);
  const known = new Map(placed.map((one) => [one.task, one]));
  const builders = new Map(map.people.map((person, index) => [person, index]));
  const origin = Date.parse(map.origin);
  const minute = (at: string): number => (Date.parse(at) - origin) / MINUTE_MS;

  const planned = (activity: number, { id, modes }: Activity): Placement | null => {
    const task = known.get(id);
    if (task === undefined) return null;
    const crew = task.people.flatMap(({ person, demand }) => {
      const builder = builders.get(person);
      return builder === undefined ? [] : [{ builder, demand }];
    });
    const heads = (mode: Activity['modes'][number]): number =>
      mode.crew.reduce((sum, { count }) => sum + count, 0);
    const mode = modes.findIndex((one) => heads(one) === task.people.length);
    if (crew.length < task.people.length || mode < 0) return null;
    return {
      activity,
      mode,
      start: minute(task.start),
      finish: minute(task.finish),
      segments: task.segments.map(({ start, end }) => ({ start: minute(start), end: minute(end) })),
      crew,
      overtime: task.overtime,
      slot: task.slot,
    };
  };

  const placements: Placement[] = [];
  const finishes = problem.refits.map(() => 0);
  for (const [index, activity] of problem.activities.entries()) {
    if (absent.has(index)) continue;
    const placement = begun(index, activity) ?? planned(index, activity);
    if (placement === null) return null;
    placements.push(placement);
    const { refit } = activity;
    if (refit !== null) finishes[refit] = Math.max(finishes[refit], placement.finish);
  }
  return { placements, branches, finishes };
}
