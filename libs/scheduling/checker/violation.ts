/**
 * What a plan can do wrong. One kind for each family of rules, so that a test can
 * break a rule on purpose and ask for it by name.
 */
export type ViolationKind =
  | 'form' // unknown index, unsorted, or a time that is no integer
  | 'missing' // a present activity has no placement
  | 'duplicate' // an activity is placed twice
  | 'absent' // placed though its branch was not taken
  | 'branch' // a choice without exactly one of its branches
  | 'mode' // no such mode
  | 'duration'
  | 'segments' // not the crew's common working time, or not one piece
  | 'shift' // outside a shift, or into an observed break
  | 'crew-count'
  | 'crew-skill'
  | 'crew-twice' // one builder in two places
  | 'release'
  | 'horizon'
  | 'forbidden-start'
  | 'lag-open'
  | 'lag-close'
  | 'resource'
  | 'dust'
  | 'fixed' // frozen or set work was moved
  | 'values'; // finishes or rank values are not those of the placements

export interface Violation {
  readonly kind: ViolationKind;
  /** The activities involved, by index; empty where the fault is the plan's own. */
  readonly activities: readonly number[];
  /** In words, with ids and minutes. */
  readonly message: string;
  /** The other record involved, by index, where there is one. */
  readonly lag?: number;
  readonly builder?: number;
  readonly resource?: number;
  readonly space?: number;
  readonly choice?: number;
  readonly refit?: number;
}
