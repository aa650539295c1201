import type { Reading, Work } from './reading.ts';
import { within } from './spans.ts';
import type { Violation } from './violation.ts';

/** What the frozen or set work of an activity asks for and the placement does not give. */
function moved({ problem }: Reading, { placement, activity }: Work): string[] {
  const { fixed } = activity;
  if (!fixed) return [];
  const found: string[] = [];
  if (fixed.start !== null && fixed.start !== placement.start)
    found.push(`starts at ${placement.start}, not at ${fixed.start}`);
  if (fixed.finish !== null && fixed.finish !== placement.finish)
    found.push(`finishes at ${placement.finish}, not at ${fixed.finish}`);
  if (fixed.builders !== null) {
    const names = (builders: readonly number[]): string =>
      builders
        .toSorted((a, b) => a - b)
        .map((b) => problem.builders[b].id)
        .join(', ');
    const asked = names(fixed.builders);
    const given = names(placement.crew.map((member) => member.builder));
    if (asked !== given) found.push(`is done by ${given || 'nobody'}, not by ${asked || 'nobody'}`);
  }
  return found;
}

/**
 * Release, origin and horizon, forbidden starts, and work that is frozen or set.
 * Frozen work may have begun before the origin and its release; it is present whatever
 * else is chosen, so its branch has to be the one taken.
 */
export function moments(reading: Reading): Violation[] {
  const { problem } = reading;
  const found: Violation[] = [];
  for (const work of reading.work) {
    const { placement, activity, mode, frozen } = work;
    const { start, finish } = placement;
    const complain = (kind: Violation['kind'], what: string): void => {
      found.push({ kind, activities: [placement.activity], message: `${activity.id} ${what}` });
    };
    for (const what of moved(reading, work)) complain('fixed', what);
    if (finish > problem.horizon)
      complain('horizon', `finishes at ${finish}, after ${problem.horizon}`);
    if (frozen) continue;
    if (start < 0) complain('horizon', `starts at ${start}, before the origin`);
    if (start < activity.release)
      complain('release', `starts at ${start}, before ${activity.release}`);
    if (within(mode.forbiddenStarts, start, start + 1))
      complain('forbidden-start', `may not start at ${start}`);
  }
  problem.activities.forEach((activity, a) => {
    if (activity.fixed?.kind === 'frozen' && !reading.present[a])
      found.push({
        kind: 'fixed',
        activities: [a],
        message: `${activity.id} has happened, but its branch is not taken`,
      });
  });
  return found;
}
