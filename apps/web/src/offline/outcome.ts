import { signal } from '@preact/signals';
import type { Schema } from '../api/client.ts';
import type { Problem } from '../api/problem.ts';
import { rememberDone } from './lately.ts';
import { dropDeed, fell } from './queue.ts';
import type { QueuedDeed } from './store.ts';

/** What became of a deed. `kept`: it waits on this device, and is sent later. */
export type Outcome =
  | { readonly how: 'done'; readonly claimId: string | null }
  | { readonly how: 'kept' }
  | { readonly how: 'refused'; readonly problem: Problem }
  | { readonly how: 'held'; readonly reasons: Schema<'TakenReport'>['reasons'] };

/** Keys of what is being sent for the first time, while whoever did it looks on. */
export const fresh = signal<ReadonlySet<string>>(new Set());

export function setFresh(key: string, isFresh: boolean): void {
  const others = [...fresh.peek()].filter((one) => one !== key);
  fresh.value = new Set(isFresh ? [...others, key] : others);
}

/** Of this page: who waits for an answer. A deed whose page waits may simply be refused. */
const waiting = new Map<string, (outcome: Outcome) => void>();

export const isAwaited = ({ key }: Pick<QueuedDeed, 'key'>): boolean => waiting.has(key);

export function awaitOutcome(key: string, told: (outcome: Outcome) => void): void {
  waiting.set(key, told);
}

export function awaitNoMore(key: string): void {
  waiting.delete(key);
}

export function settled(queued: QueuedDeed, outcome: Outcome): void {
  if (outcome.how === 'refused' || outcome.how === 'held') fell(queued);
  waiting.get(queued.key)?.(outcome);
  waiting.delete(queued.key);
}

export async function done(queued: QueuedDeed, claimId: string | null): Promise<void> {
  await rememberDone(queued, claimId);
  await dropDeed(queued);
  settled(queued, { how: 'done', claimId });
}
