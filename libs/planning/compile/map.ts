/** Which yard row stands at each index of a problem. Plain JSON, stored beside it. */
export interface PlanMap {
  readonly version: 1;
  readonly yardId: string;
  readonly timeZone: string;
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
  /** Task link ids by lag. */
  readonly lags: readonly string[];
  readonly choices: readonly { readonly id: string; readonly branches: readonly string[] }[];
  /** Choices that begun work has decided, with the branch id. */
  readonly decided: readonly { readonly id: string; readonly branch: string }[];
  /** Tasks of branches that can no longer be taken: not in the problem. */
  readonly dropped: readonly string[];
}
