import type { Analysis } from '../critical-path.ts';
import { isCertain } from '../domains.ts';
import { leastWait } from '../lag-constants.ts';

/**
 * For each activity, minutes that pass at least between its finish and the finish of its
 * refit, by the certain openings after it: longest path with constants that hold for every anchor.
 */
export function tailsOf({ root, assumed }: Analysis): Float64Array {
  const { problem, compiled, owners, ways } = root;
  const { activities } = problem;
  const tails = new Float64Array(activities.length);
  const least = ways.map((own) =>
    own.length === 0 ? 0 : own.reduce((min, way) => Math.min(min, way.minutes), Infinity),
  );
  const { topological } = compiled.order;
  for (let i = topological.length - 1; i >= 0; i -= 1) {
    const a = topological[i];
    const beside = (choice: number, branch: number): boolean =>
      choice < 0 ||
      assumed.taken[choice] === branch ||
      (owners.activityChoice[a] === choice && owners.activityBranch[a] === branch);
    for (const arc of root.outgoing[a]) {
      const { to } = arc;
      const { refit, fixed } = activities[to];
      if (!arc.open || !arc.fromFinish || arc.toFinish) continue;
      if (refit !== activities[a].refit || fixed?.kind === 'frozen') continue;
      const present =
        isCertain(root, assumed, to) ||
        beside(owners.activityChoice[to], owners.activityBranch[to]);
      if (!present || !beside(arc.choice, arc.branch)) continue;
      tails[a] = Math.max(tails[a], leastWait(problem, arc) + least[to] + tails[to]);
    }
  }
  return tails;
}
