import type { Trust } from '#cure/evidence/evidence.ts';
import type { SolveStatus } from '#scheduling/model/plan.ts';
import type { Milestone } from '../yard/materials.ts';
import type { Air } from '../yard/procedures.ts';
import type { Row } from '../compile/trace/map.ts';
import type { TaskState } from '../workload/workload.ts';

/** An instant twice: UTC ISO 8601, and the yard's wall clock as `2026-11-30T07:00`. */
export interface When {
  readonly at: string;
  readonly local: string;
}

/**
 * A film reaches a milestone: openings when the last of it has, closings when the first of it
 * has. `when` is the safe moment that the plan keeps to; the truth is expected between
 * `earliest` and `latest`. Null: not before the horizon.
 */
export interface FilmMark {
  readonly milestone: Milestone;
  readonly words: string;
  readonly when: When | null;
  readonly earliest: When | null;
  readonly latest: When | null;
  /** How a builder finds out by hand; null where the sheet has no test. */
  readonly touchTest: string | null;
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
  readonly mix: MixSheet | null;
  /** Of a coat: what it bonds to, and how; null where nothing is known of the surface. */
  readonly bond: SheetBond | null;
  readonly consumables: readonly SheetAmount[];
  /** Damp or cold air, a surface near the dew point, a contested bond: to be looked at before work begins. */
  readonly warnings: readonly string[];
  /** Never to be switched off. */
  readonly cautions: readonly SheetCaution[];
}

export interface SheetCaution {
  readonly text: string;
  readonly source: string;
}

export interface SheetAmount {
  readonly id: string;
  readonly name: string;
  readonly amount: number;
  readonly unit: string;
  readonly source: string;
}

/** What a coat finds under it. */
export interface SheetBond {
  /** The task that laid the surface, or null for what was there before. */
  readonly onTask: string | null;
  readonly surface: string;
  readonly bond: 'chemical' | 'mechanical';
  /** What has to be done first, in order. */
  readonly preparation: readonly string[];
  readonly reason: string;
  readonly source: string;
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

/** One cup: what to weigh, when to mix it, and by when it has to be spread. */
export interface SheetCup {
  readonly number: number;
  readonly resinGrams: number;
  readonly hardenerGrams: number;
  /** Null where no density is known. */
  readonly hardenerMl: number | null;
  readonly mixAt: When;
  readonly spreadBy: When;
  /** When it gels in the cup if it stays there. */
  readonly potLifeEnds: When;
}

/** What to weigh for a wet task, in which cups, by when. */
export interface MixSheet {
  readonly materialId: string;
  readonly material: string;
  /** Of the resin when the first cup is mixed. */
  readonly celsius: number;
  readonly fabrics: readonly {
    readonly id: string;
    readonly name: string;
    readonly squareMetres: number;
    readonly grams: number;
  }[];
  /** Null where the step says no quantity or the sheet no hardener: only the clock is given then. */
  readonly resinGrams: number | null;
  readonly hardenerGrams: number | null;
  readonly hardenerMl: number | null;
  /** Kilograms per litre that the millilitres were reckoned with. */
  readonly hardenerDensity: number | null;
  /** As weighed: `2 % of the resin`, `20 g to 100 g`. */
  readonly ratio: string | null;
  /**
   * Pot life of the largest of its cups (where there are none, of the sheet's own), and how much
   * of it may be used. Null where the sheet has no pot life or the resin is outside its limits.
   */
  readonly potLifeMinutes: number | null;
  readonly useWithinMinutes: number | null;
  /** The arithmetic of the quantity, line by line, as a builder would check it. */
  readonly steps: readonly string[];
  readonly cups: readonly SheetCup[];
  /** Why nothing, or less, can be weighed: the line of the data sheet that is missing. */
  readonly missing: readonly string[];
}

/** What a plan needs of one material or fabric, week by week. */
export interface SheetShopping {
  readonly id: string;
  readonly name: string;
  readonly kind: 'resin' | 'hardener' | 'fabric' | 'consumable';
  readonly unit: string;
  /** Monday of the week in which it is first used, by the yard's date. */
  readonly week: string;
  readonly amount: number;
  /** Used from and until; a sheet with a shelf life says how old it may be by then. */
  readonly firstUse: When;
  readonly lastUse: When;
  readonly shelfLifeDays: number | null;
}

/** A material as the plan reckoned with it: its numbers, which are the yard's own, and the factor observed. */
export interface SheetMaterial {
  readonly id: string;
  readonly name: string;
  readonly classId: string | null;
  readonly catalogue: string;
  readonly lines: readonly {
    readonly line: string;
    readonly value: string;
    readonly trust: Trust;
    readonly source: string;
    readonly spread: number;
    readonly overridden: boolean;
    readonly factor: number;
  }[];
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
  /** Of heaters, tents and dehumidifiers to the horizon: not in `total`, no plan decides it. */
  readonly climate: number;
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
  readonly version: 3;
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
  readonly shopping: readonly SheetShopping[];
  readonly materials: readonly SheetMaterial[];
  readonly caution: string;
}

export const CAUTION =
  'Times come from the data sheets as they stand in the yard file and from forecast temperatures. ' +
  'The maker’s data sheet, local rules and a competent person come first: test the film before you follow a window.';
