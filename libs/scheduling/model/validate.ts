import type { Fault } from '#kernel/error.ts';
import type { Problem } from './problem.ts';
import { activity } from './validation/activities.ts';
import { choices } from './validation/choices.ts';
import { cycles } from './validation/cycles.ts';
import { builder } from './validation/people.ts';
import { distinctIds, report, type Report } from './validation/report.ts';
import { resource, space } from './validation/supply.ts';
import { calendar, lagFunction, table } from './validation/time.ts';

function head(to: Report, problem: Problem): void {
  to.whole('horizon', problem.horizon, 0);
  if (problem.origin !== null && Number.isNaN(Date.parse(problem.origin)))
    to.add(
      'input.field',
      'origin',
      'It is not an instant',
      problem.origin,
      'Give an ISO 8601 instant in UTC.',
    );
  problem.tolerances.forEach((value, i) => to.whole(`tolerances[${i}]`, value, 0));
}

function refits(to: Report, problem: Problem): void {
  problem.refits.forEach(({ release, due, weight }, r) => {
    const path = `refits[${r}]`;
    to.whole(`${path}.weight`, weight, 0);
    const whole = to.whole(`${path}.release`, release);
    if (due === null || !to.whole(`${path}.due`, due) || !whole || due >= release) return;
    const message = `It is due at ${due}, before its release at ${release}`;
    to.add('yard.promise', `${path}.due`, message, due);
  });
}

function surfaces(to: Report, problem: Problem): void {
  problem.surfaces.forEach(({ activity: owner, until }, s) => {
    const path = `surfaces[${s}]`;
    lagFunction(to, `${path}.until`, until, problem);
    if (!to.index(`${path}.activity`, owner, problem.activities.length, 'activity')) return;
    const { id, modes } = problem.activities[owner];
    if (modes.some((mode) => mode.air !== 'wet'))
      to.add(
        'input.field',
        `${path}.activity`,
        `${id} is not wet work in all its modes`,
        owner,
        'Give the surface to wet work.',
      );
  });
}

function lags(to: Report, problem: Problem): void {
  problem.lags.forEach(({ from, to: target, fn }, l) => {
    const path = `lags[${l}]`;
    to.index(`${path}.from`, from, problem.activities.length, 'activity');
    to.index(`${path}.to`, target, problem.activities.length, 'activity');
    lagFunction(to, `${path}.fn`, fn, problem);
  });
}

/** Applies a rule to each record of a list whose ids are to differ. */
function each<T extends { readonly id: string }>(
  to: Report,
  name: string,
  records: readonly T[],
  rule: (to: Report, path: string, record: T) => void,
): void {
  distinctIds(to, name, records);
  records.forEach((record, i) => {
    rule(to, `${name}[${i}]`, record);
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
  head(to, problem);
  each(to, 'calendars', problem.calendars, calendar);
  each(to, 'builders', problem.builders, (r, path, one) => {
    builder(r, path, one, problem);
  });
  each(to, 'resources', problem.resources, resource);
  each(to, 'spaces', problem.spaces, (r, path, one) => {
    space(r, path, one, problem);
  });
  each(to, 'tables', problem.tables, (r, path, one) => {
    table(r, path, one, problem.horizon);
  });
  each(to, 'activities', problem.activities, (r, path, one) => {
    activity(r, path, one, problem);
  });
  each(to, 'choices', problem.choices, () => undefined);
  each(to, 'refits', problem.refits, () => undefined);
  lags(to, problem);
  choices(to, problem);
  surfaces(to, problem);
  refits(to, problem);
  // Cycles are looked for only where every index and number can be relied on.
  if (to.faults.length === 0) cycles(to, problem);
  return to.faults;
}
