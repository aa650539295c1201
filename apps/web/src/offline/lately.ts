import { signal } from '@preact/signals';
import { person } from '../session/session.ts';
import { keep, keptAt, type QueuedDeed } from './store.ts';

/** A report that the service has taken, and when: what was read before does not show it yet. */
interface Done {
  readonly queued: QueuedDeed;
  readonly doneAt: string;
  /** The claim that was made. */
  readonly claimId: string | null;
}
export const lately = signal<readonly Done[]>([]);
const mostLately = 50;

/** Of a page that is taken away, what was read last may be older than what was done last. */
const keptAs = 'done lately';

/** To be called before the deed leaves the queue: at no moment does the device forget it. */
export async function rememberDone(queued: QueuedDeed, claimId: string | null): Promise<void> {
  if (queued.deed.kind !== 'report') return;
  const doneAt = new Date().toISOString();
  lately.value = [...lately.peek(), { queued, doneAt, claimId }].slice(-mostLately);
  // Only of use out of reach: what cannot be kept does not keep it from being sent.
  await keep(queued.accountId, keptAs, lately.peek()).catch(() => undefined);
}

/** What was done from this device before the page was opened. */
export async function lookUpDone(accountId: string): Promise<void> {
  const read = await keptAt(accountId, keptAs);
  const before = read === null ? [] : (read.data as readonly Done[]);
  if (person.peek()?.id !== accountId) return;
  const known = new Set(lately.peek().map(({ queued }) => queued.key));
  const other = before.filter(({ queued }) => !known.has(queued.key));
  lately.value = [...other, ...lately.peek()].slice(-mostLately);
}

export function forgetOthers(accountId: string | undefined): void {
  lately.value = lately.peek().filter(({ queued }) => queued.accountId === accountId);
}
