import type { Constraint } from '../model/constraint.ts';
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

type Complain = (kind: Violation['kind'], constraint: Constraint, what: string) => void;

/** The moments that only work yet to be done has to respect. */
function allowed({ placement, activity, mode }: Work, complain: Complain): void {
  const { start, finish } = placement;
  if (start < 0) complain('horizon', { kind: 'horizon' }, `starts at ${start}, before the origin`);
  activity.releases.forEach(({ at, kind }, release) => {
    if (start >= at) return;
    const constraint = { kind: 'release', activity: placement.activity, release } as const;
    complain('release', constraint, `starts at ${start}, before ${at} (${kind})`);
  });
  mode.forbidden.forEach(({ anchor, spans, kind }, forbidden) => {
    const moment = anchor === 'start' ? start : finish;
    if (!within(spans, moment, moment + 1)) return;
    complain(
      anchor === 'start' ? 'forbidden-start' : 'forbidden-finish',
      { kind: 'forbidden', activity: placement.activity, mode: placement.mode, forbidden },
      `may not ${anchor} at ${moment} (${kind})`,
    );
  });
}

/**
 * Releases, origin and horizon, forbidden starts and finishes, and work that is frozen or set.
 * Frozen work may have begun before the origin and its releases; it is present whatever
 * else is chosen, so its branch has to be the one taken.
 */
export function moments(reading: Reading): Violation[] {
  const { problem } = reading;
  const found: Violation[] = [];
  for (const work of reading.work) {
    const { placement, activity, frozen, freed } = work;
    const complain: Complain = (kind, constraint, what) => {
      const message = `${activity.id} ${what}`;
      found.push({ kind, activities: [placement.activity], constraint, message });
    };
    for (const what of moved(reading, work))
      complain('fixed', { kind: 'fixed', activity: placement.activity }, what);
    if (freed > problem.horizon)
      complain('horizon', { kind: 'horizon' }, `ends at ${freed}, after ${problem.horizon}`);
    if (!frozen) allowed(work, complain);
  }
  problem.activities.forEach((activity, a) => {
    if (activity.fixed?.kind === 'frozen' && !reading.present[a])
      found.push({
        kind: 'fixed',
        activities: [a],
        constraint: { kind: 'fixed', activity: a },
        message: `${activity.id} has happened, but its branch is not taken`,
      });
  });
  return found;
}
