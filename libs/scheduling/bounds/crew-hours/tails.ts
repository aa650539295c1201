import type { Compiled } from '../../search/crew/compiled.ts';
import type { Analysis } from '../critical-path.ts';
import { leastWait } from '../lag-constants.ts';

/**
 * For each activity, minutes that pass at least between its finish and the finish of its
 * refit, by the certain openings after it: longest path with constants that hold for every anchor.
 */
export function tailsOf(compiled: Compiled, { assumed }: Analysis): Float64Array {
  const { activities, order } = compiled;
  const tails = new Float64Array(activities.length);
  const least = activities.map(({ modes }) =>
    Math.min(...modes.map((m) => (m.crews === null ? m.minutes : m.least))),
  );
  const given = (choice: number, branch: number, a: number): boolean =>
    choice < 0 ||
    assumed.taken[choice] === branch ||
    (activities[a].choice === choice && activities[a].branch === branch);
  for (let i = order.topological.length - 1; i >= 0; i -= 1) {
    const a = order.topological[i];
    for (const arc of activities[a].outgoing) {
      const { to } = arc;
      const next = activities[to];
      if (
        !arc.open ||
        !arc.fromFinish ||
        arc.toFinish ||
        next.refit !== activities[a].refit ||
        next.frozen
      )
        continue;
      if (!given(arc.choice, arc.branch, a) || !given(next.choice, next.branch, a)) continue;
      tails[a] = Math.max(tails[a], leastWait(compiled, arc) + least[to] + tails[to]);
    }
  }
  return tails;
}
