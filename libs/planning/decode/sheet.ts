import type { SolveStatus } from '#scheduling/model/plan.ts';
import type { Milestone } from '../yard/materials.ts';
import type { Air } from '../yard/procedures.ts';
import type { Row } from '../compile/map.ts';
import type { TaskState } from '../workload/workload.ts';

/** An instant twice: UTC ISO 8601, and the yard's wall clock as `2026-11-30T07:00`. */
export interface When {
  readonly at: string;
  readonly local: string;
}

/** A film reaches a milestone: openings when the last of it has, closings when the first of it has. Null: not before the horizon. */
export interface FilmMark {
  readonly milestone: Milestone;
  readonly words: string;
  readonly when: When | null;
}

/** What a follow-up must keep to: it starts no earlier than `opens`, and is over by `closes`. */
export interface SheetWindow {
  readonly linkId: string;
  readonly toTask: string;
  readonly toName: string;
  /** `bond`, `sand`, `tack`, `handle`, `wait`, `stale`, … */
  readonly kind: string;
  readonly opens: When | null;
  readonly closes: When | null;
}

export interface SheetTask {
  readonly id: string;
  readonly name: string;
  readonly refitId: string;
  readonly boatId: string;
  readonly boat: string;
  readonly partId: string;
  readonly part: string;
  readonly jobId: string;
  readonly stepId: string;
  readonly spaceId: string;
  readonly space: string;
  readonly air: Air;
  /** Null of a hold point. */
  readonly skill: string | null;
  readonly material: string | null;
  readonly state: TaskState;
  readonly start: When;
  readonly finish: When;
  readonly segments: readonly { readonly start: When; readonly finish: When }[];
  readonly crew: readonly { readonly personId: string; readonly name: string }[];
  /** Minutes of it beyond the shifts, of all who are on it together. */
  readonly overtimeMinutes: number;
  /** When brushes and tools are clean; null where nothing is to be cleaned. */
  readonly cleanedDown: When | null;
  /** The space its part is taken to. */
  readonly movesTo: { readonly spaceId: string; readonly space: string } | null;
  readonly slot: SheetSlot | null;
  readonly floatMinutes: number | null;
  /** Of wet tasks, in order of time; what the horizon does not see comes last. */
  readonly film: readonly FilmMark[];
  readonly windows: readonly SheetWindow[];
  readonly mix: MixHint | null;
}

/** The slot of the outside world that a task uses. */
export interface SheetSlot {
  readonly listId: string;
  readonly list: string;
  readonly from: When;
  readonly until: When;
  /** Cents; 0 where it is booked already. */
  readonly price: number;
  /** To be booked by then; null where it is booked. */
  readonly bookBy: When | null;
}

/** How long a cup lasts in the space when the task starts. */
export interface MixHint {
  readonly celsius: number;
  readonly potLifeMinutes: number;
  /** Use a batch within so many minutes; so many batches for the whole task. */
  readonly useWithinMinutes: number;
  readonly batches: number;
  readonly cautions: readonly string[];
}

/** Why one task of a binding chain could not start earlier: facts, and a sentence made of them. */
export interface ChainStep {
  readonly fromTask: string | null;
  readonly toTask: string;
  readonly until: When;
  /** `lag:<kind>`, any other kind of constraint, or `loose` (no cause). */
  readonly reason: string;
  /** The yard's row that asks for it; null of `loose`. */
  readonly row: Row | null;
  readonly text: string;
}

export interface SheetBoat {
  readonly boatId: string;
  readonly boat: string;
  readonly refitId: string;
  readonly refit: string;
  readonly ownerId: string | null;
  readonly promised: When | null;
  readonly finish: When;
  /** Minutes from the promised moment to the handing over; 0 if in time or nothing was promised. */
  readonly lateMinutes: number;
  /** Proved by propagation: no plan finishes the boat before; and how far the plan is above that. */
  readonly earliest: When;
  readonly gapMinutes: number;
  readonly tasks: number;
  readonly chain: readonly ChainStep[];
}

/**
 * One rank of the objective: its value, the proved bound, and how far apart they can be. In
 * weighted minutes (broken promises, finishes), cents (money), weighted changes (disturbance).
 */
export interface RankView {
  readonly rank: 'promises' | 'finishes' | 'money' | 'disturbance';
  readonly value: number;
  readonly bound: number;
  readonly distance: number;
  readonly gap: number;
  readonly proof: string;
}

/** What work that has not begun costs, cents. */
export interface SheetMoney {
  readonly labour: number;
  /** On top of labour. */
  readonly overtime: number;
  readonly slots: number;
  /** Materials and hire that steps name. */
  readonly prices: number;
  readonly total: number;
}

/** A task that is no longer as published. */
export interface SheetMove {
  readonly taskId: string;
  readonly published: When;
  /** Null: it is not done any more. */
  readonly planned: When | null;
  readonly moved: boolean;
  readonly people: { readonly before: readonly string[]; readonly now: readonly string[] } | null;
}

export interface SheetChoice {
  readonly id: string;
  readonly name: string;
  readonly partId: string;
  readonly branch: string;
  readonly branchName: string;
}

/**
 * A plan in the yard's words: plain JSON that needs neither the yard nor the problem to be
 * read, stored beside the plan and never changed.
 */
export interface PlanSheet {
  readonly version: 2;
  readonly yardId: string;
  readonly yard: string;
  readonly timeZone: string;
  /** ISO 4217. */
  readonly currency: string;
  readonly origin: When;
  readonly horizon: When;
  readonly status: SolveStatus;
  /** By start, then id. */
  readonly tasks: readonly SheetTask[];
  readonly choices: readonly SheetChoice[];
  readonly boats: readonly SheetBoat[];
  /** All four, in order; empty where nothing was proved. */
  readonly ranks: readonly RankView[];
  readonly money: SheetMoney;
  /** Against the published plan, where there is one. */
  readonly moved: readonly SheetMove[];
  readonly caution: string;
}

export const CAUTION =
  'Times come from the data sheets as they stand in the yard file and from forecast temperatures. ' +
  'The maker’s data sheet, local rules and a competent person come first: test the film before you follow a window.';
