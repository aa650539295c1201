import { promise } from '../../bounds/promise.ts';
import type { RankValues } from '../../model/plan.ts';
import { measure, type Domains } from './domains.ts';
import type { World } from './world.ts';

/** The ranks over what is left of the domains. */
export interface Worth {
  /** The least that each rank can be; exact where all are placed. */
  least(domains: Domains): RankValues;
  /**
   * Takes away what would make a rank worth more than `limits`; false where nothing is left.
   * `changed` is told of each activity that lost candidates.
   */
  restrict(domains: Domains, limits: Readonly<Float64Array>, changed: (k: number) => void): boolean;
}

export function worth(world: World): Worth {
  const { problem, domains: candidates, finishes } = world;
  const { refits, horizon } = problem;
  const refitOf = world.activities.map((a) => problem.activities[a].refit ?? -1);
  // By refit and finish, weighted lateness: the scan of handovers is too slow for each candidate.
  const lateness = refits.map((_, r) =>
    Float64Array.from({ length: horizon + 1 }, (_, finish) => promise(problem, r, finish)),
  );
  const money = candidates.map((domain) => Float64Array.from(domain, (c) => c.money));
  const moved = candidates.map((domain) => Float64Array.from(domain, (c) => c.moved));
  const finish = new Float64Array(refits.length);
  const leastMoney = new Float64Array(candidates.length);
  const leastMoved = new Float64Array(candidates.length);

  /** Slots that the placed have booked, each once. */
  const booked = (domains: Domains): number => {
    if (problem.slotLists.length === 0) return 0;
    const seen = new Set<string>();
    let sum = 0;
    domains.placed.forEach((c, k) => {
      if (c < 0) return;
      const { way } = candidates[k][c];
      if (way.slot === null || way.work.slots === null) return;
      const key = `${String(way.work.slots)}/${String(way.slot)}`;
      if (!seen.has(key)) sum += problem.slotLists[way.work.slots].slots[way.slot].cost;
      seen.add(key);
    });
    return sum;
  };

  const minimum = (values: Float64Array, domains: Domains, k: number): number => {
    const live = domains.live[k];
    let least = Infinity;
    for (let i = 0; i < domains.count[k]; i += 1)
      if (values[live[i]] < least) least = values[live[i]];
    return least;
  };

  const least = (domains: Domains): RankValues => {
    finish.fill(0);
    let spent = booked(domains);
    let disturbed = world.missed;
    for (let k = 0; k < candidates.length; k += 1) {
      const r = refitOf[k];
      if (r >= 0 && domains.minFinish[k] > finish[r]) finish[r] = domains.minFinish[k];
      leastMoney[k] = minimum(money[k], domains, k);
      leastMoved[k] = minimum(moved[k], domains, k);
      spent += leastMoney[k];
      disturbed += leastMoved[k];
    }
    let lates = 0;
    let ends = 0;
    for (let r = 0; r < refits.length; r += 1) {
      lates += lateness[r][finish[r]];
      ends += refits[r].weight * finish[r];
    }
    return [lates, ends, spent, disturbed];
  };

  const restrict: Worth['restrict'] = (domains, limits, changed) => {
    const sums = least(domains);
    const spare = sums.map((sum, rank) => limits[rank] - sum);
    if (spare.some((left) => left < 0)) return false;
    for (let k = 0; k < candidates.length; k += 1) {
      const r = refitOf[k];
      const live = domains.live[k];
      let kept = 0;
      for (let i = 0; i < domains.count[k]; i += 1) {
        const c = live[i];
        const end = finishes[k][c];
        const later = r >= 0 && end > finish[r];
        const fits =
          money[k][c] - leastMoney[k] <= spare[2] &&
          moved[k][c] - leastMoved[k] <= spare[3] &&
          (!later ||
            (lateness[r][end] - lateness[r][finish[r]] <= spare[0] &&
              refits[r].weight * (end - finish[r]) <= spare[1]));
        if (fits) live[kept++] = c;
      }
      if (kept === domains.count[k]) continue;
      domains.count[k] = kept;
      if (!measure(world, domains, k)) return false;
      changed(k);
    }
    return true;
  };

  return { least, restrict };
}
