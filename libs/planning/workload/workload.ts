import type { Air, Moment } from '../yard/procedures.ts';

/** Where a task stands. Running and done work keeps its real times and crew. */
export type TaskState = 'waiting' | 'working' | 'done';

/** One piece of work for a crew, made from a procedure's step and a part's size. */
export interface Task {
  /** `<job>.<step>`; job ids are unique in a yard. */
  readonly id: string;
  readonly refitId: string;
  readonly partId: string;
  readonly jobId: string;
  readonly stepId: string;
  readonly name: string;
  /** Builder-minutes at the nominal rate, at least 1. */
  readonly workMinutes: number;
  readonly floorMinutes: number;
  readonly skill: string;
  readonly minLevel: number;
  readonly crewMin: number;
  readonly crewMax: number;
  readonly air: Air;
  readonly material: string | null;
  readonly space: string;
  readonly tools: readonly { readonly tool: string; readonly count: number }[];
  readonly splittable: boolean;
  readonly breaks: 'relieved' | 'observed';
  readonly state: TaskState;
  /** ISO instants; `finishedAt` of running work is when it is expected. */
  readonly startedAt: string | null;
  readonly finishedAt: string | null;
  /** People who do or did it; empty while waiting, unless set by the foreman. */
  readonly crew: readonly string[];
}

/** A cure window or plain order between two tasks (see `linkSchema`). */
export interface TaskLink {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly opens: Moment | null;
  readonly closes: Moment | null;
  readonly sweep: 'unknown' | 'same';
}

export interface TaskBranch {
  readonly id: string;
  readonly name: string;
  readonly tasks: readonly string[];
  readonly links: readonly string[];
}

export interface TaskChoice {
  readonly id: string;
  readonly name: string;
  readonly partId: string;
  readonly branches: readonly TaskBranch[];
}

/** Everything to be done in a yard, as tasks. */
export interface Workload {
  readonly tasks: readonly Task[];
  readonly links: readonly TaskLink[];
  readonly choices: readonly TaskChoice[];
}
