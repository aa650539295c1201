import type { Hold, OpenSurface, Problem } from '../problem.ts';
import { distinct, type Report } from './report.ts';
import { most } from './supply.ts';
import { lagFunctions } from './time.ts';

/** What work leaves behind it: an open surface. */
export function surface(to: Report, path: string, one: OpenSurface, problem: Problem): void {
  const { activity: owner, until, coveredBy } = one;
  lagFunctions(to, `${path}.until`, until, owner, problem);
  distinct(to, `${path}.coveredBy`, coveredBy, problem.activities.length, 'activity');
  if (coveredBy.includes(owner))
    to.add(
      'input.field',
      `${path}.coveredBy`,
      'It is covered by the work that leaves it',
      owner,
      'Name the work that comes after.',
    );
  if (!to.index(`${path}.activity`, owner, problem.activities.length, 'activity')) return;
  const { id, modes } = problem.activities[owner];
  const refuse = (what: string, cure: string): void => {
    to.add('input.field', `${path}.activity`, `${id} ${what}`, owner, cure);
  };
  if (modes.some(({ air }) => air === 'dusty'))
    refuse('makes dust in a mode', 'Give the surface to clean or wet work.');
  if (modes.some(({ space }) => space === null))
    refuse('is in no space in a mode', 'Say in which space it is done.');
  // Where the film is during its own move is not said.
  if (modes.some(({ movesTo }) => movesTo !== null))
    refuse('moves its part itself', 'Move the part by another activity.');
}

/** What work leaves behind it: something that stays taken. */
export function hold(to: Report, path: string, one: Hold, problem: Problem): void {
  const { activity: owner, ends } = one;
  to.index(`${path}.activity`, owner, problem.activities.length, 'activity');
  const known = to.index(`${path}.resource`, one.resource, problem.resources.length, 'resource');
  if (to.whole(`${path}.amount`, one.amount, 0) && known) {
    const resource = problem.resources[one.resource];
    const limit = most(resource);
    if (one.amount > limit)
      to.add(
        'input.field',
        `${path}.amount`,
        `${one.amount} of ${resource.id} are held and there are never more than ${limit}`,
        one.amount,
        'Hold less, or raise the capacity.',
      );
  }
  if (ends.length === 0)
    to.add('input.field', `${path}.ends`, 'Nothing ends it', [], 'Say when it may end.');
  ends.forEach((end, i) => {
    const own = `${path}.ends[${i}]`;
    if (end.kind === 'lag') lagFunctions(to, `${own}.fns`, end.fns, owner, problem);
    else if (to.index(`${own}.activity`, end.activity, problem.activities.length, 'activity'))
      if (end.activity === owner)
        to.add(
          'input.field',
          `${own}.activity`,
          'It waits for the work that holds it',
          owner,
          'Name other work.',
        );
  });
}
