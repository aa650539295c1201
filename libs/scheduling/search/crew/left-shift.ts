import type { Plan } from '../../model/plan.ts';
import type { Compiled } from './compiled.ts';
import { earliestFit, type Fit } from './fit.ts';
import { planOf, worthOf, type Worth } from './plan-of.ts';
import { copyState, emptyState, place, placeFrozen, type State } from './state.ts';
import { narrow, type Window } from './window.ts';

const PASSES = 5;
/** Each move looks at the whole plan: past so many activities one pass has to do. */
const LARGE = 300;

interface Spot {
  readonly mode: number;
  readonly crew: number;
  start: number;
  finish: number;
}

/** Where each activity of a plan is; null if a crew is not among those compiled. */
function spotsOf(compiled: Compiled, plan: Plan): Map<number, Spot> | null {
  const spots = new Map<number, Spot>();
  for (const { activity, mode, start, finish, crew } of plan.placements) {
    const { frozen, modes } = compiled.activities[activity];
    const { crews } = modes[mode];
    const named = crew.map((c) => `${String(c.builder)}:${String(c.demand)}`).sort();
    const index =
      frozen !== null || crews === null
        ? -1
        : crews.findIndex(
            (o) =>
              o.builders
                .map((b, i) => `${String(b)}:${String(o.demands[i])}`)
                .sort()
                .join() === named.join(),
          );
    if (index < 0 && frozen === null && crews !== null) return null;
    spots.set(activity, { mode, crew: index, start, finish });
  }
  return spots;
}

/**
 * The plan with each activity in turn, by start, moved to the earliest moment at which its mode and
 * crew fit between all the others, until nothing moves. No refit finishes later. Afterwards
 * something holds back every activity, so that chains of causes have no gaps.
 */
export function leftShift(compiled: Compiled, plan: Plan): Plan {
  const spots = spotsOf(compiled, plan);
  if (!spots) return plan;
  const frozen = emptyState(compiled);
  placeFrozen(compiled, frozen);
  frozen.branch.set(plan.branches);
  const state = emptyState(compiled);
  const fit: Fit = { start: 0, finish: 0 };
  const fill = (without: number): State => {
    copyState(frozen, state);
    state.branch.set(plan.branches);
    for (const [a, spot] of spots)
      if (a !== without && state.placed[a] === 0)
        place(compiled, state, a, spot.mode, spot.crew, spot.start, spot.finish);
    return state;
  };
  const passes = spots.size > LARGE ? 1 : PASSES;
  let moved = true;
  for (let pass = 0; pass < passes && moved; pass += 1) {
    moved = false;
    const order = [...spots].sort(([a, x], [b, y]) => x.start - y.start || a - b);
    for (const [a, spot] of order) {
      const activity = compiled.activities[a];
      if (activity.frozen !== null || activity.setStart >= 0) continue;
      const { release } = activity;
      const window: Window = {
        startFrom: release,
        startTo: Infinity,
        finishFrom: 0,
        finishTo: Infinity,
      };
      fill(a);
      narrow(compiled, state, plan.branches, a, window);
      const mode = activity.modes[spot.mode];
      const option = mode.crews === null ? null : mode.crews[spot.crew];
      const { startFrom, finishFrom } = window;
      if (
        !earliestFit(
          compiled,
          state,
          activity,
          mode,
          option,
          startFrom,
          finishFrom,
          spot.finish,
          fit,
        )
      )
        continue;
      spot.start = fit.start;
      spot.finish = fit.finish;
      moved = true;
    }
  }
  fill(-1);
  const present = Uint8Array.from(compiled.activities, (_, a) => (spots.has(a) ? 1 : 0));
  const ends = new Float64Array(compiled.problem.refits.length);
  const worth: Worth = { late: 0, finishes: 0, spread: 0 };
  worthOf({ compiled, state, present }, ends, worth);
  return planOf({ compiled, state, present }, plan.branches, ends, worth);
}
