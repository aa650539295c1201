import type { Placement, Plan, RankValues } from '../model/plan.ts';
import type { Problem } from '../model/problem.ts';

const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

const finishesOf = (problem: Problem, placements: readonly Placement[]): number[] =>
  problem.refits.map((_, r) =>
    Math.max(
      0,
      ...placements
        .filter(({ activity }) => problem.activities[activity].refit === r)
        .map(({ finish }) => finish),
    ),
  );

function lateness({ refits, horizon }: Problem, finishes: readonly number[]): number {
  return sum(
    refits.map(({ due, handovers, weight }, r) => {
      if (due === null) return 0;
      const next = handovers.find((moment) => moment >= finishes[r]);
      const handover = handovers.length === 0 ? finishes[r] : (next ?? horizon);
      return weight * Math.max(0, handover - due);
    }),
  );
}

/** Money that one placement takes, its slot apart: counted minute by minute. */
function wages(
  problem: Problem,
  { activity, mode, segments, finish, crew, overtime }: Placement,
): number {
  const { cost, cleanDown } = problem.activities[activity].modes[mode];
  const spans = [...segments, { start: finish, end: finish + cleanDown }];
  let money = cost;
  for (const member of crew) {
    const builder = problem.builders[member.builder];
    const extra = overtime ? problem.calendars[builder.calendar].overtime : [];
    for (const { start, end } of spans)
      for (let minute = start; minute < end; minute++) {
        money += builder.cost;
        money += extra.find((span) => span.start <= minute && minute < span.end)?.cost ?? 0;
      }
  }
  return money;
}

function money(problem: Problem, placements: readonly Placement[]): number {
  const free = placements.filter(
    ({ activity }) => problem.activities[activity].fixed?.kind !== 'frozen',
  );
  const booked = new Map<string, number>();
  for (const { activity, mode, slot } of free) {
    const list = problem.activities[activity].modes[mode].slots;
    if (list === null || slot === null) continue;
    booked.set(`${list} ${slot}`, problem.slotLists[list].slots[slot].cost);
  }
  return sum([...booked.values(), ...free.map((one) => wages(problem, one))]);
}

function disturbance({ published }: Problem, placements: readonly Placement[]): number {
  if (published === null) return 0;
  return sum(
    published.tasks.map(({ activity, start, builders, weight }) => {
      const now = placements.find((one) => one.activity === activity);
      if (!now) return weight;
      const own = new Set(now.crew.map(({ builder }) => builder));
      const others = own.size !== builders.length || !builders.every((b) => own.has(b));
      const moved = Math.abs(now.start - start) > published.tolerance;
      return (moved ? weight : 0) + (others ? weight : 0);
    }),
  );
}

/**
 * What a plan is worth, from the words of the contract and by another way than the checker's.
 * Placements are those of present activities.
 */
export function worth(
  problem: Problem,
  placements: readonly Placement[],
): Pick<Plan, 'finishes' | 'values'> {
  const finishes = finishesOf(problem, placements);
  const values: RankValues = [
    lateness(problem, finishes),
    sum(problem.refits.map(({ weight }, r) => weight * finishes[r])),
    money(problem, placements),
    disturbance(problem, placements),
  ];
  return { finishes, values };
}
