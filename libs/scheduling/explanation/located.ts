import type { Placement, Plan } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';
import type { Arc } from '../search/crew/arc.ts';
import type { Compiled, CompiledActivity, CompiledMode } from '../search/crew/compiled.ts';
import type { CrewOption } from '../search/crew/crews.ts';
import { workTable, type WorkTable } from '../search/crew/spans.ts';

/** A placed activity with what the compiled problem knows of it. */
export interface Located {
  readonly placement: Placement;
  readonly activity: CompiledActivity;
  readonly mode: CompiledMode;
  /** Null where nobody is needed, and for frozen work. */
  readonly option: CrewOption | null;
  readonly table: WorkTable;
  readonly minutes: number;
}

/** A plan as explanations read it. `at[a]` is undefined where `a` is absent. */
export interface LocatedPlan {
  readonly problem: Problem;
  readonly compiled: Compiled;
  readonly plan: Plan;
  readonly at: readonly (Located | undefined)[];
}

const key = (builders: readonly number[]): string => builders.toSorted((a, b) => a - b).join();

/** The crew as the compiled mode lists it, or made up where it is not among those listed. */
function optionOf(problem: Problem, mode: CompiledMode, placement: Placement): CrewOption {
  const builders = placement.crew.map((c) => c.builder);
  const named = key(builders);
  const listed = mode.crews?.find(
    (o) =>
      key(o.builders) === named &&
      o.minutes === placement.segments.reduce((sum, s) => sum + s.end - s.start, 0),
  );
  if (listed) return listed;
  const calendars = [...new Set(builders.map((b) => problem.builders[b].calendar))];
  const table = workTable(
    calendars.map((c) => problem.calendars[c]),
    problem.horizon,
  );
  return {
    builders,
    demands: placement.crew.map((c) => c.demand),
    table,
    relieved: { shifts: table.shifts, work: table.shifts },
    minutes: placement.segments.reduce((sum, s) => sum + s.end - s.start, 0),
    scarcity: 0,
  };
}

export function locate(compiled: Compiled, plan: Plan): LocatedPlan {
  const { problem, activities, anyTime } = compiled;
  const at: (Located | undefined)[] = activities.map(() => undefined);
  for (const placement of plan.placements) {
    const activity = activities[placement.activity];
    const mode = activity.modes[placement.mode];
    const free = activity.frozen !== null || mode.crews === null;
    const option = free ? null : optionOf(problem, mode, placement);
    at[placement.activity] = {
      placement,
      activity,
      mode,
      option,
      table: option === null ? anyTime : option.table,
      minutes: option === null ? placement.finish - placement.start : option.minutes,
    };
  }
  return { problem, compiled, plan, at };
}

/** Whether a lag holds in the plan: both ends placed and its branch, if any, taken. */
export const active = ({ plan, at }: LocatedPlan, arc: Arc): boolean =>
  at[arc.from] !== undefined &&
  at[arc.to] !== undefined &&
  (arc.choice < 0 || plan.branches[arc.choice] === arc.branch);
