import type { Arc, Compiled } from '../../search/crew/compiled.ts';
import type { Analysis } from '../critical-path.ts';

/** The least that an opening lies after its anchor, whatever the anchor. */
function leastWait(compiled: Compiled, arc: Arc): number {
  if (arc.fn.kind === 'constant') return arc.fn.minutes;
  const { grid, values } = compiled.problem.tables[arc.fn.table];
  let least = Infinity;
  // Up to minute k * grid, from the grid point before it on, the opening is values[k].
  values.forEach((value, k) => {
    least = Math.min(least, value - k * grid);
  });
  return least;
}

/**
 * For each activity, minutes that pass at least between its finish and the finish of its
 * refit, by the certain openings after it: longest path with constants that hold for every anchor.
 */
export function tailsOf(compiled: Compiled, { assumed }: Analysis): Float64Array {
  const { activities, order } = compiled;
  const tails = new Float64Array(activities.length);
  const least = activities.map(({ modes }) => Math.min(...modes.map((m) => (m.crews === null ? m.minutes : m.least))));
  const given = (choice: number, branch: number, a: number): boolean =>
    choice < 0 || assumed.taken[choice] === branch || (activities[a].choice === choice && activities[a].branch === branch);
  for (let i = order.topological.length - 1; i >= 0; i -= 1) {
    const a = order.topological[i];
    for (const arc of activities[a].outgoing) {
      const { to } = arc;
      const next = activities[to];
      if (!arc.open || !arc.fromFinish || arc.toFinish || next.refit !== activities[a].refit || next.frozen) continue;
      if (!given(arc.choice, arc.branch, a) || !given(next.choice, next.branch, a)) continue;
      tails[a] = Math.max(tails[a], leastWait(compiled, arc) + least[to] + tails[to]);
    }
  }
  return tails;
}
