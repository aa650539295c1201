import type { Constraint } from '../model/constraint.ts';

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
  | 'segments' // not the common working time, or not one piece
  | 'overtime' // claimed for frozen work or without a crew
  | 'shift' // outside a builder's shift, or into an observed break
  | 'clean-down' // the work is in the shift, the clean-down is not
  | 'hours' // outside the calendar of a resource
  | 'crew-count'
  | 'crew-skill'
  | 'senior' // a learner without one
  | 'crew-twice' // one builder in two places
  | 'release'
  | 'horizon'
  | 'forbidden-start'
  | 'forbidden-finish'
  | 'slot' // not in a slot of its list, or one booked too late
  | 'fixed' // frozen or set work was moved
  | 'lag-open'
  | 'lag-close'
  | 'resource' // too much used at once, by demands or by several holds
  | 'hold' // too much used at once, but not without one of the holds
  | 'stock'
  | 'part' // two activities on one part at once
  | 'location' // the part is elsewhere
  | 'barrier' // two acts on one barrier at once
  | 'dust'
  | 'values'; // finishes or rank values are not those of the placements

export interface Violation {
  readonly kind: ViolationKind;
  /** The activities involved, by index; empty where the fault is the plan's own. */
  readonly activities: readonly number[];
  /** What is not respected; null where the plan contradicts itself or leaves something out. */
  readonly constraint: Constraint | null;
  /** In words, with ids and minutes. */
  readonly message: string;
}
