import type { Fault } from '#kernel/error.ts';
import type { Problem } from './problem.ts';
import { activity } from './validation/activities.ts';
import { hold, surface } from './validation/after.ts';
import { choices } from './validation/choices.ts';
import { cycles } from './validation/cycles.ts';
import { builder } from './validation/people.ts';
import { distinctIds, report, type Report } from './validation/report.ts';
import { resource, slotList, space } from './validation/supply.ts';
import { calendar, lagFunctions, table } from './validation/time.ts';
import { published, refit } from './validation/wishes.ts';

function head(to: Report, problem: Problem): void {
  const { horizon, now, origin } = problem;
  if (to.whole('horizon', horizon, 0)) to.whole('now', now, 0, horizon);
  if (origin !== null && Number.isNaN(Date.parse(origin)))
    to.add(
      'input.field',
      'origin',
      'It is not an instant',
      origin,
      'Give an ISO 8601 instant in UTC.',
    );
  problem.tolerances.forEach((value, i) => to.whole(`tolerances[${i}]`, value, 0));
}

function lags(to: Report, problem: Problem): void {
  problem.lags.forEach(({ from, to: target, fns }, l) => {
    const path = `lags[${l}]`;
    to.index(`${path}.from`, from, problem.activities.length, 'activity');
    to.index(`${path}.to`, target, problem.activities.length, 'activity');
    lagFunctions(to, `${path}.fns`, fns, from, problem);
  });
}

/**
 * Everything that is wrong with a problem of the right shape, with the path into it;
 * empty where search, checker and bounds may rely on it. A `yard.cycle` fault (constant
 * lags among activities of no branch that contradict each other) is the one that says
 * "proved infeasible" rather than "malformed": whoever reads benchmark instances may
 * answer it so. Modes that nobody can do are faults even where another mode would serve.
 */
export function validate(problem: Problem): readonly Fault[] {
  const to = report();
  /** Applies a rule to each record of a list whose ids are to differ. */
  const each = <T extends { readonly id: string }>(
    name: string,
    records: readonly T[],
    rule: (to: Report, path: string, record: T, problem: Problem) => void,
  ): void => {
    distinctIds(to, name, records);
    records.forEach((record, i) => {
      rule(to, `${name}[${i}]`, record, problem);
    });
  };
  head(to, problem);
  each('calendars', problem.calendars, calendar);
  each('builders', problem.builders, builder);
  each('resources', problem.resources, resource);
  each('stocks', problem.stocks, (r, path, { total }) => r.whole(`${path}.total`, total, 0));
  each('spaces', problem.spaces, space);
  each('barriers', problem.barriers, () => undefined);
  each('parts', problem.parts, (r, path, one) =>
    r.index(`${path}.space`, one.space, problem.spaces.length, 'space'),
  );
  each('slotLists', problem.slotLists, slotList);
  each('tables', problem.tables, (r, path, one) => {
    table(r, path, one, problem.horizon);
  });
  each('activities', problem.activities, activity);
  each('choices', problem.choices, () => undefined);
  each('surfaces', problem.surfaces, surface);
  each('holds', problem.holds, hold);
  each('refits', problem.refits, refit);
  lags(to, problem);
  choices(to, problem);
  if (problem.published) published(to, problem.published, problem);
  // Cycles are looked for only where every index and number can be relied on.
  if (to.faults.length === 0) cycles(to, problem);
  return to.faults;
}
