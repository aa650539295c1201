import { sourceOf, type Constraint } from '#scheduling/model/constraint.ts';
import type { Problem } from '#scheduling/model/problem.ts';

/** A row of the yard file, or of the foreman's wishes, that a constraint came from. */
export interface Row {
  /** `link`, `person`, `calendar`, `delivery`, … as in the constraint's source. */
  readonly kind: string;
  readonly id: string;
  readonly name: string;
  /** Where it stands in the yard file; empty for what the plan was asked for. */
  readonly path: string;
}

/** Which yard row stands at each index of a problem. Plain JSON, stored beside it. */
export interface PlanMap {
  readonly version: 2;
  readonly yardId: string;
  readonly timeZone: string;
  readonly currency: string;
  /** UTC ISO instant of minute 0. */
  readonly origin: string;
  readonly horizon: number;
  /** Task ids by activity. */
  readonly tasks: readonly string[];
  readonly people: readonly string[];
  readonly spaces: readonly string[];
  readonly refits: readonly string[];
  readonly skills: readonly string[];
  readonly resources: readonly { readonly kind: 'room' | 'tool'; readonly id: string }[];
  readonly parts: readonly string[];
  readonly stocks: readonly string[];
  readonly barriers: readonly string[];
  /** `slots`: the place in the yard's list, by slot. */
  readonly slotLists: readonly { readonly id: string; readonly slots: readonly number[] }[];
  /** Task link ids by lag; empty for the pot life of a batch, which is no link's. */
  readonly lags: readonly string[];
  readonly choices: readonly { readonly id: string; readonly branches: readonly string[] }[];
  /** Choices that begun work has decided, with the branch id. */
  readonly decided: readonly { readonly id: string; readonly branch: string }[];
  /** Tasks of branches that can no longer be taken: not in the problem. */
  readonly dropped: readonly string[];
  /** Every source in the problem, with its row. */
  readonly rows: Readonly<Record<string, Row>>;
}

/** The yard row that a constraint of the map's problem came from. */
export function rowOf(map: PlanMap, problem: Problem, constraint: Constraint): Row {
  const source = sourceOf(problem, constraint);
  const row = Object.hasOwn(map.rows, source) ? map.rows[source] : undefined;
  if (row === undefined) throw new RangeError(`nothing in the yard is known as ${source}`);
  return row;
}
