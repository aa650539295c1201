import type { QueuedDeed, Way } from './store.ts';

/** What one request carries. */
const mostReports = 100;

const needsClaim: ReadonlySet<string> = new Set([
  'join',
  'leave',
  'release',
  'start',
  'pause',
  'resume',
  'progress',
  'finish',
  'abandon',
]);

/** Whether a report can be sent as a command of its own, whose refusal is answered at once. */
const canGoDirectly = ({ deed }: QueuedDeed): boolean =>
  deed.kind === 'report' && (deed.claimId !== null || !needsClaim.has(deed.command.kind));

/**
 * How a report is sent: as it was sent before, else by itself while whoever did it waits for the
 * answer, else with the others that wait.
 */
export const wayOf = (queued: QueuedDeed, isAwaited: boolean): Way =>
  queued.tried ?? (isAwaited && canGoDirectly(queued) ? 'directly' : 'reports');

/** Reports of one yard from the first on, up to what is something else or goes by itself. */
export function runOf(
  open: readonly QueuedDeed[],
  isAwaited: (queued: QueuedDeed) => boolean,
): readonly QueuedDeed[] {
  const [{ yardId }] = open;
  const end = open.findIndex(
    (one, k) =>
      one.deed.kind !== 'report' ||
      one.yardId !== yardId ||
      (k > 0 && wayOf(one, isAwaited(one)) === 'directly'),
  );
  return open.slice(0, Math.min(end < 0 ? open.length : end, mostReports));
}
