import type { PgBoss } from 'pg-boss';
import type { Transaction } from '#persistence/client.ts';
import type { Event } from '#persistence/generated/client.ts';
import type { YardStates } from '#persistence/live/yard-states.ts';

/** What a step has in hand: one yard, what has happened in it, and the transaction that all is part of. */
export interface Following {
  /** Entered as the service. It ends with the cursor moved past `events`, or with nothing done at all. */
  readonly tx: Transaction;
  readonly yardId: string;
  readonly now: Date;
  /** Not yet followed, ascending; none on a visit because of the time. */
  readonly events: readonly Event[];
  readonly states: YardStates;
  /** Jobs go in with `db: fromPrisma(tx)`, so that they are there with the change or not at all. */
  readonly boss: PgBoss;
}

/**
 * Something that follows from what happened. It may be given the same events again (another step
 * failed, or the process died), and what it appends itself comes back to it: it looks at what is,
 * and does only what is missing.
 */
export type FollowerStep = (following: Following) => Promise<void>;
