import type { SolveStatus } from '#scheduling/model/plan.ts';
import type { Milestone } from '../yard/materials.ts';
import type { Air } from '../yard/procedures.ts';
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
  readonly skill: string;
  readonly material: string | null;
  readonly state: TaskState;
  readonly start: When;
  readonly finish: When;
  readonly segments: readonly { readonly start: When; readonly finish: When }[];
  readonly crew: readonly { readonly personId: string; readonly name: string }[];
  readonly floatMinutes: number | null;
  /** Of wet tasks, in order of time; what the horizon does not see comes last. */
  readonly film: readonly FilmMark[];
  readonly windows: readonly SheetWindow[];
  readonly mix: MixHint | null;
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
  /** `lag:<kind>`, `builder`, `resource`, `air`, `calendar`, `forbidden`, `release`, `fixed`, `loose` (no cause). */
  readonly reason: string;
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
  /** Minutes after the promised moment; 0 if in time or nothing was promised. */
  readonly lateMinutes: number;
  /** Proved by propagation: no plan finishes the boat before; and how far the plan is above that. */
  readonly earliest: When;
  readonly gapMinutes: number;
  readonly tasks: number;
  readonly chain: readonly ChainStep[];
}

/** One rank of the objective: its value, the proved bound, and how far apart they can be. */
export interface RankView {
  readonly value: number;
  readonly bound: number;
  readonly gapMinutes: number;
  readonly gap: number;
  readonly proof: string;
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
  readonly version: 1;
  readonly yardId: string;
  readonly yard: string;
  readonly timeZone: string;
  readonly origin: When;
  readonly horizon: When;
  readonly status: SolveStatus;
  /** By start, then id. */
  readonly tasks: readonly SheetTask[];
  readonly choices: readonly SheetChoice[];
  readonly boats: readonly SheetBoat[];
  readonly lateness: RankView | null;
  readonly finishes: RankView | null;
  readonly caution: string;
}

export const CAUTION =
  'Times come from the data sheets as they stand in the yard file and from forecast temperatures. ' +
  'The maker’s data sheet, local rules and a competent person come first: test the film before you follow a window.';
