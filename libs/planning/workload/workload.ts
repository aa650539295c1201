import type { Air, Moment, Preparation, Quantity } from '../yard/procedures.ts';

/** When a hold may end: as a moment of the task, or with another task. */
export type TaskHoldEnd =
  Moment | { readonly kind: 'task'; readonly task: string; readonly anchor: 'start' | 'finish' };

/** A tool kept from the task's start until the last of `until`. */
export interface TaskHold {
  /** Unique within the task. */
  readonly id: string;
  readonly tool: string;
  readonly count: number;
  readonly until: readonly TaskHoldEnd[];
}

/**
 * Where a task stands. Begun and done work keeps its real times and crew. `paused`: begun and put
 * aside, the rest is planned as if it waited. `redo`: done, and does not count, since a rework does
 * it again; nothing of the workload follows from it but that its time is past.
 */
export const taskStates = ['waiting', 'working', 'paused', 'done', 'redo'] as const;
export type TaskState = (typeof taskStates)[number];

/** One piece of work for a crew, made from a procedure's step and a part's size. */
export interface Task {
  /** `<job>.<step>`; job ids are unique in a yard. */
  readonly id: string;
  readonly refitId: string;
  readonly partId: string;
  readonly jobId: string;
  readonly stepId: string;
  readonly name: string;
  /** Builder-minutes at the nominal rate, at least 1; 0 of a hold point. */
  readonly workMinutes: number;
  readonly floorMinutes: number;
  /** Null, with a crew of 0: a hold point. */
  readonly skill: string | null;
  readonly minLevel: number;
  readonly crewMin: number;
  readonly crewMax: number;
  readonly air: Air;
  readonly material: string | null;
  /** See the step. */
  readonly quantity: Quantity | null;
  readonly oneBatch: boolean;
  readonly prepares: readonly Preparation[];
  readonly bonding: 'structural' | 'cosmetic';
  /** Where its part is then, by the order of the links, unless the step names a space. */
  readonly space: string;
  /** The space its parts are taken to; its own for a turn. Null: it moves nothing. */
  readonly movesTo: string | null;
  /** Parts that nobody else may work on meanwhile, its own first; none: others may. */
  readonly parts: readonly string[];
  readonly tools: readonly { readonly tool: string; readonly count: number }[];
  readonly splittable: boolean;
  readonly breaks: 'relieved' | 'observed';
  readonly cleanDownMinutes: number;
  readonly holds: readonly TaskHold[];
  /** In the stock's unit. */
  readonly consumes: readonly { readonly stock: string; readonly amount: number }[];
  readonly barrier: { readonly barrier: string; readonly closes: boolean } | null;
  /** Slot list. */
  readonly slots: string | null;
  /** Cents. */
  readonly price: number;
  /** See the step; `coveredBy` are tasks. */
  readonly sensitiveUntil: Moment | null;
  readonly coveredBy: readonly string[];
  readonly state: TaskState;
  /** ISO instants; `finishedAt` of running work is when it is expected. */
  readonly startedAt: string | null;
  readonly finishedAt: string | null;
  /** People who do or did it; empty while waiting, unless set by the foreman. */
  readonly crew: readonly string[];
  /** ISO instant at which the foreman wants it begun; null: whenever is best. */
  readonly fixedStart: string | null;
  /** Builder-minutes at the nominal rate still to be done of begun work; null: nobody said. */
  readonly leftMinutes: number | null;
  /** The rework it belongs to, and the task that it does again; null: as the procedure has it. */
  readonly rework: string | null;
  readonly replaces: string | null;
  /** How much of the part's area and lengths it is about, more than 0: 1 is all, a repair may be less. */
  readonly portion: number;
}

/** A cure window or plain order between two tasks (see `linkSchema`). */
export interface TaskLink {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly opens: Moment | null;
  readonly closes: Moment | null;
  readonly sweep: 'unknown' | 'same';
  /** Whose it is: of the procedure, of the order of jobs, or set by the foreman. */
  readonly setBy: 'procedure' | 'job' | 'foreman';
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

/** Whether it cannot be put aside half done: wet work, hold points, and what its step says so of. */
export const isInOneGo = (task: Pick<Task, 'splittable' | 'material' | 'skill'>): boolean =>
  !task.splittable || task.material !== null || task.skill === null;
