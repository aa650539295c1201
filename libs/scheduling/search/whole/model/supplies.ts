import type { Problem } from '../../../model/problem.ts';
import type { Spans } from '../../crew/compiled/spans.ts';
import { unary } from '../../../propagation/unary.ts';
import { spansOf } from '../../crew/compiled/spans.ts';
import { minutesOf, type Monotone } from '../rules/monotone.ts';
import type { Step, Use } from '../rules/occupancy.ts';
import { Usage } from '../rules/usage.ts';
import { union } from './hours.ts';
import { atLeast, type Condition, type Draft } from './draft.ts';
import { keptOrder } from './focus.ts';
import { clash, type Occupied, type Orders } from './orders.ts';
import type { Ground } from './ground.ts';
import type { Steps } from './steps.ts';
import type { Taken, WayOf, Work } from './works.ts';

/** An amount taken from a work's start until a variable; in what it works or throughout. */
export interface Holding {
  readonly work: Work;
  readonly until: number;
  readonly amount: number;
}

interface Component extends Occupied {
  readonly tail: number;
  readonly amounts: readonly { readonly way: WayOf; readonly amount: number }[];
}

/** What the ways of a work take of a resource, apart by clean-down and by whether it is kept while paused. */
function componentsOf(problem: Problem, work: Work, resource: number): Component[] {
  const found = new Map<string, Component & { amounts: { way: WayOf; amount: number }[] }>();
  const ids = new Map<Spans | null, number>();
  for (const way of work.ways) {
    const { demands } = problem.activities[work.activity].modes[way.mode];
    const add = (hours: Spans | null, amount: number): void => {
      if (amount === 0) return;
      const id = ids.get(hours) ?? ids.size;
      ids.set(hours, id);
      const key = `${String(way.cleanDown)}/${String(id)}`;
      const least = way.minutes + way.cleanDown;
      const own = found.get(key);
      if (own === undefined)
        found.set(key, {
          hours,
          shifts: way.shifts,
          least,
          tail: way.cleanDown,
          amounts: [{ way, amount }],
        });
      else {
        own.amounts.push({ way, amount });
        const shifts = own.shifts === way.shifts ? own.shifts : null;
        found.set(key, { ...own, shifts, least: Math.min(own.least, least) });
      }
    };
    let kept = 0;
    let paused = 0;
    for (const one of demands)
      if (one.resource === resource) {
        if (one.keptWhilePaused || way.hours === null) kept += one.amount;
        else paused += one.amount;
      }
    add(null, kept);
    add(way.hours, paused);
  }
  return [...found.values()];
}

/** A variable that holds the amount, or the amount itself where it is always the same. */
function useOf(draft: Draft, work: Work, { amounts, tail, hours }: Component): Use {
  const { start, finish, ways, present } = work;
  const base = { start, finish, tail, hours };
  const [{ amount: first }] = amounts;
  if (amounts.length === ways.length && amounts.every(({ amount }) => amount === first))
    return { ...base, amount: first, times: null };
  const times = draft.worth(
    ways.map((way) => ({
      when: way.when,
      value: amounts.find((one) => one.way === way)?.amount ?? 0,
    })),
    present,
  );
  return { ...base, amount: 1, times };
}

const mostOf = (draft: Draft, { amount, times }: Use): number =>
  times === null ? amount : amount * draft.highest(times);
const leastOf = (draft: Draft, work: Work, { amount, times }: Use): number =>
  times === null ? (work.present === null ? amount : 0) : amount * draft.lowest(times);

/** Before minute 0 only frozen work lies, and nothing is known of capacity: then there is enough. */
const beforeToo = (steps: readonly Step[], enough: number, first: number): readonly Step[] =>
  first < 0 ? [{ from: first, capacity: enough }, ...steps] : steps;

/** Renewable resources, demanded and held. */
export function* addResources(
  { problem, draft }: Ground,
  works: readonly (Work | null)[],
  holdings: readonly (readonly Holding[])[],
  orders: Orders,
): Steps<void> {
  for (const [resource, { steps }] of problem.resources.entries()) {
    yield;
    const entries = works.flatMap((work) =>
      work === null
        ? []
        : componentsOf(problem, work, resource).map((component) => ({
            work,
            component,
            use: useOf(draft, work, component),
          })),
    );
    const held = holdings[resource].map(({ work, until, amount }): Use => ({
      start: work.start,
      finish: until,
      tail: 0,
      amount,
      times: null,
      hours: null,
    }));
    const uses = [...entries.map(({ use }) => use), ...held];
    const leastStart = ({ start }: Use): number => draft.lowest(start);
    const capacities = steps.map(({ capacity }) => capacity);
    const most = uses.reduce((sum, use) => sum + mostOf(draft, use), 0);
    if (most <= Math.min(...capacities)) continue;
    addUsage(draft, beforeToo(steps, most, Math.min(...uses.map(leastStart))), uses);
    const top = Math.max(...capacities);
    entries.forEach((one, i) => {
      for (const other of entries.slice(i + 1)) {
        // What has happened before minute 0 may have been more than there is now.
        if (one.work === other.work || (one.work.frozen && other.work.frozen)) continue;
        const [a, b] = [leastOf(draft, one.work, one.use), leastOf(draft, other.work, other.use)];
        if (a + b <= top || !clash(one.component, other.component, problem.horizon)) continue;
        orders.exclude(
          { work: one.work, to: one.work.finish, gap: one.component.tail },
          { work: other.work, to: other.work.finish, gap: other.component.tail },
          null,
        );
      }
    });
  }
}

export function addUsage(draft: Draft, steps: readonly Step[], uses: readonly Use[]): void {
  const { absent } = draft;
  draft.rule((trail, reason) => new Usage(trail, reason, { steps, uses, absent }));
}

interface Claim {
  readonly work: Work;
  readonly taken: Taken;
}

const takes = (draft: Draft, { taken: { count } }: Claim): Condition =>
  draft.lowest(count) >= 1 ? null : atLeast(count, 1);

/** Minutes that a builder may work, as a clock; breaks count where somebody works through them. */
function clockOf({ builders, calendars, horizon }: Problem, builder: number): Monotone {
  const { shifts, overtime } = calendars[builders[builder].calendar];
  return minutesOf(spansOf(union(shifts, overtime), horizon));
}

/**
 * What a builder does one after the other, on the builder's own clock: all work of theirs, clean-down
 * included, is in shifts or overtime, and so passes on it in full.
 */
function addUnary(problem: Problem, draft: Draft, builder: number, claims: readonly Claim[]): void {
  const clock = clockOf(problem, builder);
  // What pauses for other reasons than its builder's hours leaves them to others meanwhile.
  const alone: Claim[] = [];
  for (const claim of claims.toSorted(
    (a, b) => Number(a.taken.hours !== null) - Number(b.taken.hours !== null),
  ))
    if (alone.every(({ taken }) => clash(taken, claim.taken, problem.horizon))) alone.push(claim);
  const uses = alone.flatMap(({ work, taken }) => {
    const { start, finish, present, frozen } = work;
    const sure = draft.lowest(taken.count) >= 1;
    if (sure && present !== null && !frozen) return [];
    const passed = clock.at(draft.lowest(finish)) - clock.at(draft.lowest(start));
    return [
      {
        start,
        finish,
        after: taken.tail,
        work: frozen ? passed : taken.least,
        when: sure ? present : atLeast(taken.count, 1),
      },
    ];
  });
  if (uses.length > 1) draft.rule(unary({ uses, clock }));
}

/**
 * Which claims on a builder follow from others: what keeps its order, and has something between
 * that excludes both. The pairs next to each other are enough for all.
 */
function chainOf(
  { problem, draft, focus }: Ground,
  claims: readonly Claim[],
): { brings(one: Claim, other: Claim): boolean } {
  if (focus === null) return { brings: () => false };
  const kept = claims.filter(
    ({ work: { activity, present }, taken }) =>
      present === null &&
      focus.freed[activity] === 0 &&
      focus.placed[activity] !== null &&
      draft.lowest(taken.count) >= 1,
  );
  kept.sort((a, b) => (keptOrder(focus, a.work.activity, b.work.activity) === 1 ? -1 : 1));
  const place = new Map(kept.map((claim, k) => [claim, k]));
  return {
    brings(one, other) {
      const [i, j] = [place.get(one), place.get(other)];
      if (i === undefined || j === undefined) return false;
      for (let k = Math.min(i, j) + 1; k < Math.max(i, j); k += 1) {
        const { work, taken } = kept[k];
        if (work === one.work || work === other.work) continue;
        if (clash(one.taken, taken, problem.horizon) && clash(taken, other.taken, problem.horizon))
          return true;
      }
      return false;
    },
  };
}

/** Nobody is in two places at once: classes of builders as resources, and pairs that one of them would do. */
export function* addPeople(
  ground: Ground,
  works: readonly (Work | null)[],
  orders: Orders,
): Steps<void> {
  const { problem, draft, classes, focus } = ground;
  const shared = new Map<string, Condition[][]>();
  const pairs: { key: string; one: Claim; other: Claim }[] = [];
  for (const [g, members] of classes.members.entries()) {
    yield;
    const claims = works.flatMap((work): Claim[] =>
      (work?.taken ?? []).flatMap((taken) =>
        work !== null && taken.builders === g ? [{ work, taken }] : [],
      ),
    );
    const uses = claims.map(({ work, taken }): Use => {
      const { start, finish } = work;
      const { tail, hours, count } = taken;
      return { start, finish, tail, amount: 1, times: count, hours };
    });
    const most = uses.reduce((sum, use) => sum + mostOf(draft, use), 0);
    if (most <= members.length || uses.length < 2) continue;
    // The pairs below say it all, where every two clash; in a neighbourhood that is enough, and cheaper.
    const isPaired =
      focus !== null &&
      members.length === 1 &&
      claims.every(({ taken }, i) =>
        claims.slice(i + 1).every((other) => clash(taken, other.taken, problem.horizon)),
      );
    if (!isPaired) addUsage(draft, [{ from: 0, capacity: members.length }], uses);
    if (members.length > 1) continue;
    addUnary(problem, draft, members[0], claims);
    const chain = chainOf(ground, claims);
    claims.forEach((one, i) => {
      for (const other of claims.slice(i + 1)) {
        if (one.work === other.work || !clash(one.taken, other.taken, problem.horizon)) continue;
        if (chain.brings(one, other)) {
          orders.keep(one.work, other.work);
          continue;
        }
        const key = [
          one.work.activity,
          other.work.activity,
          one.taken.tail,
          other.taken.tail,
        ].join();
        const both = [takes(draft, one), takes(draft, other)];
        const known = shared.get(key);
        if (known === undefined) {
          shared.set(key, [both]);
          pairs.push({ key, one, other });
        } else known.push(both);
      }
    });
  }
  for (const [p, { key, one, other }] of pairs.entries()) {
    if (p % 64 === 0) yield;
    const alternatives = shared.get(key) ?? [];
    let when: Condition = null;
    const open = alternatives.map((both) => both.filter((literal) => literal !== null));
    if (open.every((literals) => literals.length > 0)) {
      if (open.length === 1 && open[0].length === 1) [[when]] = open;
      else {
        when = draft.boolean();
        for (const literals of open) draft.implies(literals, when);
      }
    }
    orders.exclude(
      { work: one.work, to: one.work.finish, gap: one.taken.tail },
      { work: other.work, to: other.work.finish, gap: other.taken.tail },
      when,
    );
  }
}
