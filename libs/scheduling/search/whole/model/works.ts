import type { Assignment, Placement } from '../../../model/plan.ts';
import type { Activity, Mode } from '../../../model/problem.ts';
import { lowerOf, upperOf } from '../../../propagation/literal.ts';
import type { Spans } from '../../crew/compiled/spans.ts';
import type { Pieces } from '../rules/pieces.ts';
import { scaled } from '../rules/monotone.ts';
import { Ways } from '../rules/ways.ts';
import { atLeast, atMost, type Condition } from './draft.ts';
import { groupAsPlaced, groupsOf, piecesOf, type Group } from './groups.ts';
import { idOf, type Ground } from './ground.ts';

/** One crew, with one slot where slots have a price. */
export interface Option {
  readonly when: Condition;
  readonly members: readonly Assignment[];
  /** The slot used; null where there is none or any will do. */
  readonly slot: number | null;
  /** Money, overtime and slots not included. */
  readonly pay: number;
}

/** So many of a class serve a demand. */
interface Served {
  readonly demand: number;
  readonly builders: number;
  readonly count: number;
}

/** A mode with the crews that share their time and take equally long. */
export interface WayOf {
  readonly when: Condition;
  readonly mode: number;
  readonly minutes: number;
  readonly cleanDown: number;
  readonly overtime: boolean;
  /** The minutes in which it works, where it pauses in others. */
  readonly hours: Spans | null;
  /** The spans of which one holds it, where it does not pause. */
  readonly shifts: Spans | null;
  readonly pieces: Pieces;
  readonly options: readonly Option[];
  /** Its crew by numbers, where crews are not listed. */
  readonly served: readonly Served[];
  /** Of its crew nothing is asked. */
  readonly isRelaxed: boolean;
}

/** How many of a class an activity takes, while it works and cleans down. */
export interface Taken {
  readonly builders: number;
  readonly count: number;
  readonly hours: Spans | null;
  readonly shifts: Spans | null;
  readonly tail: number;
  readonly least: number;
}

export interface Work {
  readonly activity: number;
  readonly start: number;
  readonly finish: number;
  /** Null: in every plan. */
  readonly present: Condition;
  readonly frozen: boolean;
  readonly ways: readonly WayOf[];
  /** Some of its crews are in no way, perhaps since the way that stood for them had no place. */
  readonly isRelaxed: boolean;
  /** By mode, the literal that it is done in it; undefined where it cannot be. */
  readonly modes: readonly (Condition | undefined)[];
  readonly taken: readonly Taken[];
}

/** Where parts that nothing moves are elsewhere, a mode is out of the question. */
function isInPlace(
  { problem }: Ground,
  activity: Activity,
  mode: Mode,
  movable: ReadonlySet<number>,
): boolean {
  return (
    mode.space === null ||
    activity.parts.every((p) => movable.has(p) || problem.parts[p].space === mode.space)
  );
}

/** Numbers of each class, and that they make up each demand of the way. */
function countsOf(ground: Ground, mode: Mode, group: Group, when: Condition): Served[] {
  const { draft, classes } = ground;
  return (group.able ?? []).flatMap((able, demand) => {
    const needed = mode.crew[demand].count;
    const sizes = new Map<number, number>();
    for (const { builder } of able) {
      const g = classes.of[builder];
      sizes.set(g, (sizes.get(g) ?? 0) + 1);
    }
    const served = [...sizes].map(([builders, size]): Served => ({
      demand,
      builders,
      count: draft.variable(0, Math.min(size, needed)),
    }));
    const most = draft.variable(needed, needed);
    const terms = served.map(({ count }) => ({ bound: lowerOf(count), fn: scaled(1) }));
    draft.sum(terms, most);
    const least = draft.variable(-needed, when === null ? -needed : 0);
    draft.implies([when], atMost(least, -needed));
    draft.sum(
      served.map(({ count }) => ({ bound: upperOf(count), fn: scaled(1) })),
      least,
    );
    return served;
  });
}

/**
 * A frozen activity: where it was, with whom. Its mode is open, and decides lags and demands.
 */
function frozenWork(ground: Ground, a: number, present: Condition): Work {
  const { problem, draft, classes } = ground;
  const { fixed, modes } = problem.activities[a];
  const start = fixed?.start ?? 0;
  const finish = fixed?.finish ?? start;
  if (finish > problem.horizon) draft.contradictory = true;
  const alone = modes.length === 1;
  const literals = modes.map((): Condition => (alone ? null : draft.boolean()));
  if (!alone) {
    const own = literals.flatMap((one) => (one === null ? [] : [one]));
    draft.clause(...own);
    draft.atMostOne(own);
  }
  const at = draft.variable(start, start);
  const by = draft.variable(finish, finish);
  const one = draft.variable(1, 1);
  const pieces: Pieces = {
    low: Int32Array.of(start),
    high: Int32Array.of(start),
    offset: Int32Array.of(finish - start),
  };
  const ways = literals.map((when, mode): WayOf => ({
    when,
    mode,
    minutes: finish - start,
    cleanDown: 0,
    overtime: false,
    hours: null,
    shifts: null,
    pieces,
    options: [],
    served: [],
    isRelaxed: false,
  }));
  const taken = [...new Set(fixed?.builders ?? [])].map((b): Taken => ({
    builders: classes.of[b],
    count: one,
    hours: null,
    shifts: null,
    tail: 0,
    least: finish - start,
  }));
  return {
    activity: a,
    start: at,
    finish: by,
    present,
    frozen: true,
    ways,
    isRelaxed: false,
    modes: literals,
    taken,
  };
}

/** Where the plan has what a neighbourhood does not move; null where it may. */
function settledAt({ problem, focus }: Ground, a: number): Placement | null {
  const placed = focus?.placed[a] ?? null;
  if (focus === null || placed === null) return null;
  const { start, finish } = placed;
  const isPossible = start >= 0 && start <= finish && finish <= problem.horizon;
  return isPossible && finish <= focus.settledBy ? placed : null;
}

/** The activity's variables, its ways and crews, and the rules between them. */
export function workOf(
  ground: Ground,
  a: number,
  present: Condition,
  movable: ReadonlySet<number>,
): Work {
  const { problem, draft, classes } = ground;
  const activity = problem.activities[a];
  if (activity.fixed?.kind === 'frozen') return frozenWork(ground, a, present);
  const { focus } = ground;
  const placed = focus?.placed[a] ?? null;
  const isFree = focus === null || focus.freed[a] === 1;
  const groups: { group: Group; pieces: Pieces }[] = [];
  let isRelaxed = false;
  for (const [m, mode] of activity.modes.entries()) {
    const asPlaced = placed?.mode === m ? placed : null;
    // What a neighbourhood's plan leaves out, and is not freed, stays out.
    if ((!isFree && asPlaced === null) || !isInPlace(ground, activity, mode, movable)) continue;
    const own = isFree ? groupsOf(ground, mode, m, activity) : [];
    const named = own.filter(({ isRelaxed }) => focus === null || !isRelaxed);
    // Of crews that cannot be told apart a neighbourhood has the plan's, or none.
    if (asPlaced !== null && named.length === 0) named.push(groupAsPlaced(ground, mode, asPlaced));
    for (const group of named) {
      isRelaxed ||= group.isRelaxed;
      const pieces = piecesOf(ground, a, group);
      if (pieces.low.length > 0) groups.push({ group, pieces });
    }
  }
  const { absent } = draft;
  const last = present === null ? problem.horizon : absent;
  const from = groups.length === 0 ? absent : 0;
  const settled = isFree || groups.length === 0 ? null : settledAt(ground, a);
  const start = draft.variable(settled?.start ?? from, settled?.start ?? last);
  const finish = draft.variable(settled?.finish ?? from, settled?.finish ?? last);
  if (present !== null) {
    draft.implies([present], atMost(start, problem.horizon));
    draft.clause(present, atLeast(start, absent));
    draft.clause(present, atLeast(finish, absent));
  }
  const alone = groups.length === 1;
  const ways = groups.map(({ group, pieces }): WayOf => {
    const mode = activity.modes[group.mode];
    const { crews, minutes, hours, shifts, overtime, slot } = group;
    const single = alone && crews.length <= 1;
    const whens = crews.map((): Condition => (single ? null : draft.boolean()));
    const when = alone ? null : crews.length === 0 ? draft.boolean() : draft.either(whens);
    const own = whens.flatMap((one) => (one === null ? [] : [one]));
    if (alone && !single) {
      draft.implies([present], ...own);
      if (present !== null) for (const one of own) draft.implies([one], present);
    }
    draft.atMostOne(own);
    const rate = (members: readonly Assignment[]): number =>
      members.reduce((sum, { builder }) => sum + problem.builders[builder].cost, 0);
    const options = crews.map((members, k): Option => ({
      when: whens[k],
      members,
      slot,
      pay: mode.cost + rate(members) * (minutes + mode.cleanDown),
    }));
    const served = countsOf(ground, mode, group, when ?? present);
    const heads = mode.crew.reduce((sum, { count }) => sum + count, 0);
    const counted: Option[] =
      group.able === null
        ? options
        : [
            {
              when,
              members: [],
              slot,
              pay:
                mode.cost +
                heads *
                  problem.builders[group.able.flat()[0].builder].cost *
                  (minutes + mode.cleanDown),
            },
          ];
    const { cleanDown } = mode;
    return {
      when,
      mode: group.mode,
      minutes,
      cleanDown,
      overtime,
      hours,
      shifts,
      pieces,
      options: counted,
      served,
      isRelaxed: group.isRelaxed,
    };
  });
  const literals = ways.flatMap(({ when }) => (when === null ? [] : [when]));
  if (literals.length > 0) {
    draft.implies([present], ...literals);
    draft.atMostOne(literals);
    if (present !== null) for (const one of literals) draft.implies([one], present);
  }
  if (ways.length > 0)
    draft.rule(
      (trail, reason) =>
        new Ways(trail, reason, {
          start,
          finish,
          absent,
          ways: ways.map(({ when, pieces }) => ({ when, pieces })),
        }),
    );
  const modes = activity.modes.map((_, m): Condition | undefined => {
    const own = ways.filter(({ mode }) => mode === m);
    if (own.length === 0) return undefined;
    return own.length === ways.length ? null : draft.either(own.map(({ when }) => when));
  });
  const taken = takenBy(ground, ways, present);
  return { activity: a, start, finish, present, frozen: false, ways, isRelaxed, modes, taken };

  function takenBy(
    { problem: { builders } }: Ground,
    all: readonly WayOf[],
    given: Condition,
  ): Taken[] {
    const found = new Map<
      string,
      { way: WayOf; builders: number; needs: { when: Condition; count: number }[]; sums: number[] }
    >();
    for (const way of all) {
      const id = idOf(ground.stock, way.hours);
      const entry = (g: number) => {
        const key = [g, way.cleanDown, id].join();
        const own = found.get(key) ?? { way, builders: g, needs: [], sums: [] };
        found.set(key, own);
        return own;
      };
      for (const { members, when } of way.options) {
        const counts = new Map<number, number>();
        for (const { builder } of members)
          if (!builders[builder].unlimited) {
            const g = classes.of[builder];
            counts.set(g, (counts.get(g) ?? 0) + 1);
          }
        for (const [g, count] of counts) entry(g).needs.push({ when, count });
      }
      for (const { builders: g, count } of way.served)
        if (!builders[classes.members[g][0]].unlimited) entry(g).sums.push(count);
    }
    return [...found.values()].map(({ way, builders: g, needs, sums }): Taken => {
      const sure = needs.filter(({ when }) => when === null);
      const least = given === null ? Math.max(0, ...sure.map(({ count }) => count)) : 0;
      const most =
        Math.max(0, ...needs.map(({ count }) => count)) +
        sums.reduce((sum, x) => sum + draft.highest(x), 0);
      const count = draft.variable(least, Math.min(most, classes.members[g].length));
      for (const need of needs)
        draft.implies(
          [need.when, ...(need.when === null ? [given] : [])],
          atLeast(count, need.count),
        );
      if (sums.length > 0)
        draft.sum(
          sums.map((x) => ({ bound: lowerOf(x), fn: scaled(1) })),
          count,
        );
      const alike = all.filter((one) => one.hours === way.hours && one.cleanDown === way.cleanDown);
      const minutes = Math.min(...alike.map((one) => one.minutes));
      return {
        builders: g,
        count,
        hours: way.hours,
        // With overtime a shift is longer: then it may lie wherever it fits.
        shifts: alike.every(({ shifts }) => shifts === way.shifts) ? way.shifts : null,
        tail: way.cleanDown,
        least: minutes + way.cleanDown,
      };
    });
  }
}
