import type { Arc } from '../search/crew/arc.ts';
import type { Compiled } from '../search/crew/compiled.ts';

/** The least that an opening lies after its anchor, whatever the anchor; -Infinity where a table ends before its anchors do. */
export function leastWait({ problem, horizon }: Compiled, arc: Arc): number {
  if (arc.fn.kind === 'constant') return arc.fn.minutes;
  const { grid, values } = problem.tables[arc.fn.table];
  let least = Infinity;
  // From the grid point before it (exclusive) up to minute k * grid the opening is values[k].
  values.forEach((value, k) => {
    least = Math.min(least, value - k * grid);
  });
  // Anchors past the last grid point read the last value.
  const beyond = values[values.length - 1] - Math.max(horizon, (values.length - 1) * grid);
  return Math.min(least, beyond);
}

/** The most that a closing lies after its anchor, whatever the anchor. */
export function mostWait({ problem }: Compiled, arc: Arc): number {
  if (arc.fn.kind === 'constant') return arc.fn.minutes;
  const { grid, values } = problem.tables[arc.fn.table];
  let most = -Infinity;
  values.forEach((value, k) => {
    most = Math.max(most, value - k * grid);
  });
  return most;
}
