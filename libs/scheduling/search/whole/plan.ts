import type { Assignment, Placement, Plan } from '../../model/plan.ts';
import type { Interval } from '../../model/problem.ts';
import { spanAfter, type Spans } from '../crew/compiled/spans.ts';
import type { Condition } from './model/draft.ts';
import type { WholeModel } from './model/whole.ts';
import type { Option, WayOf, Work } from './model/works.ts';
import { finishesOf, valuesOf } from './values.ts';

/** Whether the literal holds where each variable has its value. */
export const holds = (values: Int32Array, literal: Condition): boolean =>
  literal === null ||
  ((literal.b & 1) === 0
    ? values[literal.b >> 1] >= literal.v
    : -values[literal.b >> 1] >= literal.v);

function segmentsOf(hours: Spans | null, start: number, finish: number): Interval[] {
  if (start === finish) return [];
  if (hours === null) return [{ start, end: finish }];
  const segments: Interval[] = [];
  for (let i = spanAfter(hours, start); i < hours.count && hours.starts[i] < finish; i += 1)
    segments.push({
      start: Math.max(start, hours.starts[i]),
      end: Math.min(finish, hours.ends[i]),
    });
  return segments;
}

/** Demands with the class that serves each head. */
type Roles = readonly { readonly demand: number; readonly builders: number }[];

function rolesOf(
  { classes }: WholeModel,
  way: WayOf,
  option: Option | null,
  values: Int32Array,
): Roles {
  if (way.served.length > 0)
    return way.served.flatMap(({ demand, builders, count }) =>
      Array.from({ length: values[count] }, () => ({ demand, builders })),
    );
  return (option?.members ?? []).map(({ builder, demand }) => ({
    demand,
    builders: classes.of[builder],
  }));
}

/** The demands of a mode filled, in order, by those who did it. */
function frozenCrew({ problem }: WholeModel, { activity }: Work, mode: number): Assignment[] {
  const { fixed, modes } = problem.activities[activity];
  const demandOf = modes[mode].crew.flatMap(({ count }, d) => Array<number>(count).fill(d));
  return (fixed?.builders ?? []).map((builder, i) => ({ builder, demand: demandOf.at(i) ?? 0 }));
}

function slotOf(
  { problem }: WholeModel,
  { activity }: Work,
  way: WayOf,
  option: Option | null,
  start: number,
  finish: number,
): number | null {
  const mode = problem.activities[activity].modes[way.mode];
  if (mode.slots === null) return null;
  if (option !== null && option.slot !== null) return option.slot;
  const end = finish + mode.cleanDown;
  const k = problem.slotLists[mode.slots].slots.findIndex(
    (slot) => slot.bookBy >= problem.now && slot.start <= start && end <= slot.end,
  );
  return k < 0 ? null : k;
}

/**
 * The plan of a solution. Where builders of a class stand in for each other, whoever is free first
 * is taken: the class is never short, and its work is never paused, so that this comes out.
 */
export function planOf(model: WholeModel, values: Int32Array): Plan {
  const { problem, classes, works, branches } = model;
  const present = works
    .filter((work) => holds(values, work.present))
    .sort((a, b) => values[a.start] - values[b.start] || a.activity - b.activity);
  const freeFrom = problem.builders.map(() => -Infinity);
  const placements = present.map((work): Placement => {
    const way = work.ways.find(({ when }) => holds(values, when));
    if (way === undefined) throw new Error('a solution leaves open how work is done');
    const { activity } = work;
    const [start, finish] = [values[work.start], values[work.finish]];
    const { mode, overtime } = way;
    if (work.frozen) {
      const crew = frozenCrew(model, work, mode);
      const segments = segmentsOf(null, start, finish);
      return { activity, mode, start, finish, segments, crew, overtime: false, slot: null };
    }
    const option = way.options.find(({ when }) => holds(values, when)) ?? null;
    const end = finish + way.cleanDown;
    const used = new Set<number>();
    const crew = rolesOf(model, way, option, values).map(({ demand, builders }): Assignment => {
      const members = classes.members[builders];
      const builder = members.find((one) => !used.has(one) && freeFrom[one] <= start) ?? members[0];
      used.add(builder);
      freeFrom[builder] = Math.max(freeFrom[builder], end);
      return { builder, demand };
    });
    const segments = segmentsOf(way.hours, start, finish);
    const slot = slotOf(model, work, way, option, start, finish);
    return { activity, mode, start, finish, segments, crew, overtime, slot };
  });
  placements.sort((a, b) => a.activity - b.activity);
  return {
    placements,
    branches: branches.map((own) => own.findIndex((literal) => holds(values, literal))),
    finishes: finishesOf(problem, placements),
    values: valuesOf(problem, placements),
  };
}
