import type { Plan, RankValues } from '../model/plan.ts';

/** A plan's values, and the plan once it is wanted. */
interface Kept {
  readonly values: RankValues;
  readonly plan: Plan;
}

/** The best found so far, rank by rank. */
export interface Incumbent {
  /** Least values found: of each rank with the earlier ones within their caps; Infinity at first. */
  readonly least: readonly number[];
  /** The plan that is best in the last rank with all earlier ones within their caps. */
  readonly plan: Plan | null;
  /** The plans that give `least` of a rank, where `plan` does not. */
  readonly leading: readonly Plan[];
  /** The most that an earlier rank may be while `rank` is looked at. */
  cap(earlier: number): number;
  /**
   * Keeps the plan unless one that is kept is at least as good in every rank; true where `plan` is
   * another then. `make` is called only for a plan that is kept.
   */
  offer(values: RankValues, make: () => Plan): boolean;
}

/** Plans kept at most, the best and those that give `least` among them. */
const MOST = 48;

const dominates = (a: RankValues, b: RankValues): boolean => a.every((value, r) => value <= b[r]);

/**
 * Ranks in order: each is least with every earlier one at its best plus its tolerance. Plans that
 * no other dominates are kept, so that the later ranks fall back on one of them when an earlier
 * rank improves and its cap tightens.
 */
export function incumbent(tolerances: readonly number[]): Incumbent {
  let front: Kept[] = [];
  let least: number[] = [Infinity, Infinity, Infinity, Infinity];
  let plan: Plan | null = null;
  let leading: Plan[] | null = null;

  const cap = (earlier: number): number => least[earlier] + (tolerances[earlier] ?? 0);

  const recompute = (): void => {
    least = [Infinity, Infinity, Infinity, Infinity];
    let within = front;
    for (let r = 0; r < 4; r += 1) {
      for (const { values } of within) least[r] = Math.min(least[r], values[r]);
      const most = r < 3 ? cap(r) : least[r];
      within = within.filter(({ values }) => values[r] <= most);
    }
    const order = [0, 1, 2];
    const best = within.reduce<Kept | null>((a, b) => {
      if (a === null) return b;
      const rank = order.find((r) => a.values[r] !== b.values[r]);
      return rank !== undefined && b.values[rank] < a.values[rank] ? b : a;
    }, null);
    plan = best?.plan ?? null;
  };

  const sorted = (): Kept[] =>
    front.toSorted((a, b) => a.values[0] - b.values[0] || a.values[1] - b.values[1]);

  /** For each rank one that gives its least value, the best one if that does. */
  const needed = (): Kept[] => {
    const order = sorted();
    const best = order.filter((one) => one.plan === plan);
    return least.flatMap((value, rank) => {
      const giving = [...best, ...order].find(
        ({ values }) =>
          values[rank] === value && values.slice(0, rank).every((own, r) => own <= cap(r)),
      );
      return giving ?? [];
    });
  };

  /** What breaks the first cap most is least likely to be needed again. */
  const thinned = (): Kept[] => {
    const order = sorted();
    const kept = new Set([...needed(), ...order.filter((one) => one.plan === plan)]);
    for (const one of order) if (kept.size < MOST) kept.add(one);
    return front.filter((one) => kept.has(one));
  };

  return {
    get least() {
      return least;
    },
    get plan() {
      return plan;
    },
    get leading() {
      leading ??= [...new Set(needed().map((one) => one.plan))].filter((one) => one !== plan);
      return leading;
    },
    cap,
    offer(values, make) {
      if (front.some((kept) => dominates(kept.values, values))) return false;
      const before = plan;
      front = front.filter((kept) => !dominates(values, kept.values));
      front.push({ values, plan: make() });
      recompute();
      leading = null;
      if (front.length > MOST) front = thinned();
      return plan !== before;
    },
  };
}
