import { check } from '../../checker/check.ts';
import { isDroppable, without } from '../../model/without.ts';
import { sourceOf, type Constraint } from '../../model/constraint.ts';
import type { Plan } from '../../model/plan.ts';
import type { Problem } from '../../model/problem.ts';
import { nudged, whyNotEarlier } from '../refusal.ts';

/** What became of one placement when it was asked for a minute earlier. */
export interface Trace {
  readonly activity: number;
  /** The binding reason, null where nothing refuses the minute. */
  readonly reason: Constraint | null;
  /** What does not agree with the checker; empty where all does. */
  readonly faults: readonly string[];
  /** The reason was taken away and its violation vanished; false where it cannot be taken away. */
  readonly removed: boolean;
}

const named = (problem: Problem, plan: Plan): string[] =>
  check(problem, plan).flatMap(({ kind, constraint }) =>
    constraint === null ? [] : [`${kind} ${JSON.stringify(constraint)}`],
  );

const list = (all: readonly string[]): string => all.toSorted().join('; ') || 'nothing';

/**
 * Asks every placement that is not frozen why it does not start a minute earlier, and the checker
 * what is wrong with the plan in which it does. The two have to name the same constraints; the row of the
 * binding reason has to be that of one of the violations; and in the problem without that
 * constraint exactly its violation is gone; what contradicts the plan's own words alone (its values,
 * its pauses) is left aside.
 */
export function traces(problem: Problem, plan: Plan): Trace[] {
  return plan.placements.flatMap(({ activity }): Trace[] => {
    if (problem.activities[activity].fixed?.kind === 'frozen') return [];
    const { obstacles } = whyNotEarlier(problem, plan, activity);
    const earlier = nudged(problem, plan, activity);
    const violations = check(problem, earlier).flatMap(({ constraint }) => constraint ?? []);
    const faults: string[] = [];
    const say = (what: string): void => {
      faults.push(`${problem.activities[activity].id}: ${what}`);
    };
    const reasons = list(obstacles.map(({ reason }) => JSON.stringify(reason)));
    const refused = list([...new Set(violations.map((one) => JSON.stringify(one)))]);
    if (reasons !== refused) say(`explained by ${reasons}, refused for ${refused}`);
    const reason = obstacles.at(0)?.reason ?? null;
    if (reason === null) return [{ activity, reason, faults, removed: false }];
    const row = sourceOf(problem, reason);
    if (!violations.some((one) => sourceOf(problem, one) === row))
      say(`no violation names the row ${row}`);
    if (!isDroppable(reason)) return [{ activity, reason, faults, removed: false }];
    const key = JSON.stringify(reason);
    const left = list(named(problem, earlier).filter((one) => !one.endsWith(` ${key}`)));
    const relaxed = list(named(without(problem, [reason]), earlier));
    if (left !== relaxed) say(`without ${key} there is ${relaxed} where ${left} is left`);
    return [{ activity, reason, faults, removed: true }];
  });
}
