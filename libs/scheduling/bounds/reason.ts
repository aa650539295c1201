import type { Activity, Mode, Problem } from '../model/problem.ts';
import { compile, type Compiled } from '../search/crew/compiled.ts';
import { analyse, type Analysis } from './critical-path.ts';
import { positiveCircle } from './cycles.ts';
import { restrict } from './restrict.ts';
import { waysOf } from './ways.ts';

const names = (problem: Problem, list: readonly number[]): string =>
  list.map((a) => problem.activities[a].id).join(', ');

const needs = (problem: Problem, mode: Mode): string =>
  mode.crew
    .map((d) => `${String(d.count)} with ${problem.skills[d.skill]} at level ${String(d.minLevel)}`)
    .join(' and ');

/** Why an activity cannot be placed although no lag stops it; null if it can. */
function alone(compiled: Compiled, analysis: Analysis, a: number): string | null {
  const { problem, horizon } = compiled;
  const activity: Activity = problem.activities[a];
  const { modes, release } = compiled.activities[a];
  const crews = modes.flatMap((m) => (m.crews === null ? [] : m.crews));
  const manned = modes.every((m) => m.crews !== null);
  if (manned && crews.length === 0)
    return `nobody can do ${activity.id}: it takes ${activity.modes.map((m) => needs(problem, m)).join(', or ')}`;
  if (waysOf(compiled, analysis.root.frozen, compiled.activities[a]).length === 0)
    return `${activity.id} asks for more of a resource than there ever is`;
  if (manned && modes.every((m) => !m.pauses)) {
    const options = modes.flatMap((m) =>
      (m.crews ?? []).map((c) => ({
        minutes: c.minutes,
        spans: m.relieved ? c.table.shifts : c.table.work,
      })),
    );
    const shift = ({ spans }: (typeof options)[number]): number =>
      spans.starts.reduce((most, start, i) => Math.max(most, spans.ends[i] - start), 0);
    if (options.every((o) => o.minutes > shift(o))) {
      const least = Math.min(...options.map((o) => o.minutes));
      const most = Math.max(...options.map(shift));
      return `${activity.id} takes at least ${String(least)} minutes in one piece and no shift of a crew for it is longer than ${String(most)}`;
    }
  }
  return `${activity.id} has no permitted start from minute ${String(release)} that lets it finish by minute ${String(horizon)}`;
}

/** The reason in one sentence, with the minutes that clash. */
export function reasonOf(
  problem: Problem,
  only: ReadonlySet<number>,
  lags: ReadonlySet<number>,
): string {
  const part = restrict(problem, only, lags);
  const compiled = compile(part.problem);
  const analysis = analyse(compiled);
  const { empty, domains, deadChoice } = analysis;
  const all = names(problem, part.activities);
  // The last branch left is taken for certain, and then its work is what has no place.
  const choice = deadChoice >= 0 || empty < 0 ? deadChoice : compiled.activities[empty].choice;
  if (choice >= 0) return `no branch of choice ${problem.choices[choice].id} can be done: ${all}`;
  const circle = positiveCircle(compiled, analysis.assumed);
  if (circle) {
    const order = circle.activities.map((a) => part.activities[a]);
    return `${names(problem, order)} wait for each other in a circle that asks for ${String(circle.excess)} minutes too many`;
  }
  if (empty < 0) return `${all} cannot all be done by minute ${String(problem.horizon)}`;
  if (lags.size === 0) return alone(compiled, analysis, empty) ?? all;
  const { id } = part.problem.activities[empty];
  const clash = (what: string, from: number, to: number): string =>
    `${id} can ${what} no earlier than minute ${String(from)} and no later than minute ${String(to)}`;
  const by = ` (lags: ${part.lags.map((l) => problem.lags[l].id).join(', ')})`;
  if (domains.startFrom[empty] > domains.startTo[empty])
    return clash('start', domains.startFrom[empty], domains.startTo[empty]) + by;
  if (domains.finishFrom[empty] > domains.finishTo[empty])
    return clash('finish', domains.finishFrom[empty], domains.finishTo[empty]) + by;
  return `${id} has no permitted start between minute ${String(domains.startFrom[empty])} and minute ${String(domains.startTo[empty])}${by}`;
}
