import type { Role } from '#planning/yard/people.ts';

/**
 * Where an operation can be called: a REST route below /api/v1, a field of GraphQL's roots, a field
 * of another type that has a resolver of its own, or a job of the queue.
 */
export type Face =
  | `${'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE'} ${string}`
  | `${'Query' | 'Mutation' | 'Subscription'}.${string}`
  | `field ${string}.${string}`
  | `job ${string}`;

/** All records of the yard, or only those of the caller (an owner's boats and what hangs on them). */
export type Whose = 'all' | 'own';

/**
 * `anyone`, signed in or not; `signed-in`: any account, for what is its own and no yard's; else the
 * roles in the named yard, and whose records each of them reaches.
 */
export type May = 'anyone' | 'signed-in' | Readonly<Partial<Record<Role, Whose>>>;

/** What an operation is about: a kind of record that the call names by its id, or no record. */
export type Subject =
  | 'service'
  | 'account'
  | 'yard'
  | 'skill'
  | 'person'
  | 'space'
  | 'tool'
  | 'stock'
  | 'barrier'
  | 'slot-list'
  | 'delivery'
  | 'material'
  | 'class'
  | 'fabric'
  | 'reading'
  | 'observation'
  | 'procedure'
  | 'boat'
  | 'refit'
  | 'part'
  | 'job'
  | 'task'
  | 'claim'
  | 'report'
  | 'alarm'
  | 'push-subscription'
  | 'candidate'
  | 'snag'
  | 'photo'
  | 'change'
  | 'calendar'
  | 'plan-run'
  | 'plan'
  | 'invitation'
  | 'program-key'
  | 'session'
  | 'passkey';

/**
 * What a program key can have been given: `read` changes nothing, `work` is a builder's day,
 * `manage` decides: what the foreman may, or what an owner orders for the own boat; each holds
 * those before it.
 */
export const scopes = ['read', 'work', 'manage'] as const;
export type Scope = (typeof scopes)[number];

/** One operation, on all its faces: who may do it, on what. */
export interface Rule {
  /** `boats.list`: its name in words of the trade. */
  readonly operation: string;
  readonly faces: readonly Face[];
  readonly may: May;
  readonly on: Subject;
  /** What a program key needs for it; null: no key may, only somebody signed in. */
  readonly scope: Scope | null;
}

export const foreman = { foreman: 'all' } as const satisfies May;
export const crew = { foreman: 'all', builder: 'all' } as const satisfies May;
export const owner = { owner: 'own' } as const satisfies May;
export const members = { foreman: 'all', builder: 'all', owner: 'own' } as const satisfies May;

/** One row of the table. */
export const row = (
  operation: string,
  faces: readonly [Face, ...Face[]],
  may: May,
  on: Subject,
  scope: Scope | null,
): Rule => ({ operation, faces, may, on, scope });
