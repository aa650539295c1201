import type { RankValues } from '../../../model/plan.ts';
import type { Problem, Refit } from '../../../model/problem.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { crewOf, segmentsOf, type State } from '../state/state.ts';

/** A plan as arrays. */
export interface Placed {
  readonly compiled: Compiled;
  readonly state: State;
  readonly present: Uint8Array;
}

/** What a decoded plan is worth. */
export interface Worth {
  /** The four ranks. */
  readonly values: [number, number, number, number];
  /** Sum of all activities' finishes: breaks ties where no refit's finish moves. */
  spread: number;
}

export const newWorth = (): Worth => ({ values: [0, 0, 0, 0], spread: 0 });

/** Whether any plan costs money at all. */
export const costsMoney = (problem: Problem): boolean =>
  problem.builders.some(({ cost }) => cost !== 0) ||
  problem.calendars.some(({ overtime }) => overtime.some(({ cost }) => cost !== 0)) ||
  problem.slotLists.some(({ slots }) => slots.some(({ cost }) => cost !== 0)) ||
  problem.activities.some(({ modes }) => modes.some(({ cost }) => cost !== 0));

/** When a refit that finishes then is handed over. */
function handover({ handovers }: Refit, finish: number, horizon: number): number {
  if (handovers.length === 0) return finish;
  for (const at of handovers) if (at >= finish) return at;
  return horizon;
}

/** Money for the overtime of a placed activity's crew, clean-down included. */
function overtimeMoney(placed: Placed, a: number): number {
  const { compiled, state } = placed;
  const { problem, activities } = compiled;
  const option = crewOf(compiled, state, a);
  if (option === null || !option.overtime) return 0;
  const spans = segmentsOf(compiled, state, a);
  const { cleanDown } = activities[a].modes[state.mode[a]];
  if (cleanDown > 0) spans.push(state.finish[a], state.finish[a] + cleanDown);
  let sum = 0;
  for (const builder of option.builders)
    for (const { start, end, cost } of problem.calendars[problem.builders[builder].calendar]
      .overtime)
      for (let i = 0; i < spans.length; i += 2)
        sum += cost * Math.max(0, Math.min(end, spans[i + 1]) - Math.max(start, spans[i]));
  return sum;
}

function money(placed: Placed): number {
  const { compiled, state, present } = placed;
  const { activities, problem } = compiled;
  let sum = 0;
  const booked = new Set<number>();
  for (let a = 0; a < present.length; a += 1) {
    if (present[a] === 0 || activities[a].frozen !== null) continue;
    const mode = activities[a].modes[state.mode[a]];
    const option = crewOf(compiled, state, a);
    sum += mode.cost;
    if (option !== null) sum += option.pay;
    if (option !== null && option.overtime) sum += overtimeMoney(placed, a);
    if (mode.slots === null || state.slot[a] < 0) continue;
    const key = mode.slotList * 65536 + state.slot[a];
    if (booked.has(key)) continue;
    booked.add(key);
    sum += problem.slotLists[mode.slotList].slots[state.slot[a]].cost;
  }
  return sum;
}

function disturbance({ compiled, state, present }: Placed): number {
  const { published } = compiled.problem;
  if (published === null) return 0;
  let sum = 0;
  for (const task of published.tasks) {
    const a = task.activity;
    if (present[a] === 0) {
      sum += task.weight;
      continue;
    }
    if (Math.abs(state.start[a] - task.start) > published.tolerance) sum += task.weight;
    const builders =
      compiled.activities[a].frozen?.builders ?? crewOf(compiled, state, a)?.builders ?? [];
    const same =
      task.builders.every((b) => builders.includes(b)) &&
      builders.every((b) => task.builders.includes(b));
    if (!same) sum += task.weight;
  }
  return sum;
}

/** The worth of the plan in these arrays; the refits' finishes go to `ends`. */
export function worthOf(placed: Placed, ends: Float64Array, paid: boolean, out: Worth): void {
  const { compiled, state, present } = placed;
  ends.fill(0);
  let spread = 0;
  for (let a = 0; a < present.length; a += 1) {
    if (present[a] === 0) continue;
    const finish = state.finish[a];
    const { refit } = compiled.activities[a];
    spread += finish;
    if (refit >= 0 && finish > ends[refit]) ends[refit] = finish;
  }
  let late = 0;
  let finishes = 0;
  compiled.problem.refits.forEach((refit, r) => {
    const { due, weight } = refit;
    if (due !== null)
      late += weight * Math.max(0, handover(refit, ends[r], compiled.horizon) - due);
    finishes += weight * ends[r];
  });
  out.values[0] = late;
  out.values[1] = finishes;
  out.values[2] = paid ? money(placed) : 0;
  out.values[3] = disturbance(placed);
  out.spread = spread;
}

export const valuesOf = ({ values }: Worth): RankValues => [
  values[0],
  values[1],
  values[2],
  values[3],
];
