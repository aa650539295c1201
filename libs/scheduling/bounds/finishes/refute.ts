import type { Analysis } from '../critical-path.ts';
import {
  copyDomains,
  isCertain,
  latestOnly,
  setDomains,
  type Assumed,
  type Domains,
} from '../domains.ts';
import { energyOf } from './energy.ts';
import { needsOf } from './pieces.ts';

/** Tells of latest finishes, one for each refit (Infinity: none asked of it), that no plan keeps them. */
export type Refute = (caps: readonly number[]) => boolean;

/**
 * Destructive bounds on finishes: under the caps latest moments are propagated through lags, hours
 * and calendars, and then the crew's time is counted in every span of days (Klein & Scholl, "Computing
 * lower bounds by destructive improvement", European J. Operational Research 112, 1999). True is a
 * proof; false says nothing.
 */
export function refuter(analysis: Analysis): Refute {
  const { root, domains: base, assumed: known } = analysis;
  const { problem } = root;
  const needs = needsOf(analysis);
  const energy = energyOf(problem, needs);
  const { pieces } = needs;
  const from = new Float64Array(pieces.length);
  const to = new Float64Array(pieces.length);
  const domains: Domains = copyDomains(base);
  const members: number[][] = problem.refits.map(() => []);
  problem.activities.forEach(({ refit }, a) => {
    if (refit !== null) members[refit].push(a);
  });
  pieces.forEach(({ activities, cleanDown }, p) => {
    const moments = cleanDown > 0 ? base.finishFrom : base.startFrom;
    from[p] = activities.reduce((first, a) => Math.min(first, moments[a]), Infinity);
  });

  /** Latest moments under the caps; false where something is nowhere. */
  const narrow = (caps: readonly number[], assumed: Assumed): boolean => {
    setDomains(domains, base);
    const changed: number[] = [];
    caps.forEach((cap, r) => {
      for (const a of members[r])
        if (domains.finishTo[a] > cap) {
          domains.finishTo[a] = cap;
          changed.push(a);
        }
    });
    let taken = 0;
    const emptied = (a: number): boolean => {
      const choice = root.owners.activityChoice[a];
      if (isCertain(root, assumed, a) || choice < 0) return false;
      const { possible } = assumed;
      possible[choice][root.owners.activityBranch[a]] = 0;
      const left = [...possible[choice]].flatMap((ok, b) => (ok === 1 ? [b] : []));
      if (left.length === 0) return false;
      if (left.length === 1) {
        assumed.taken[choice] = left[0];
        taken += 1;
      }
      return true;
    };
    if (latestOnly(root, domains, assumed, changed.reverse(), emptied) >= 0) return false;
    // A branch that is taken has lags of its own.
    for (let before = 0; before !== taken;) {
      before = taken;
      if (latestOnly(root, domains, assumed, null, emptied) >= 0) return false;
    }
    return true;
  };

  return (caps) => {
    const assumed: Assumed = {
      taken: known.taken.slice(),
      possible: known.possible.map((one) => one.slice()),
    };
    if (!narrow(caps, assumed)) return true;
    pieces.forEach(({ refit, activities, cleanDown }, p) => {
      to[p] = Infinity;
      if (caps[refit] === Infinity) return;
      const last = activities.reduce((most, a) => Math.max(most, domains.finishTo[a]), -Infinity);
      to[p] = Math.min(last, problem.horizon - cleanDown) + cleanDown;
    });
    return energy.overloaded(from, to);
  };
}
