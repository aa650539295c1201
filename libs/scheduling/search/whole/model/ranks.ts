import { promise } from '../../../bounds/promise.ts';
import type { PublishedTask } from '../../../model/problem.ts';
import { lowerOf } from '../../../propagation/literal.ts';
import { minutesBetween } from '../../crew/compiled/spans.ts';
import { bisected, scaled, shift } from '../rules/monotone.ts';
import type { Pieces } from '../rules/pieces.ts';
import { Price } from '../rules/price.ts';
import type { Term } from '../rules/sum.ts';
import { atLeast, atMost, variableOf, type Condition } from './draft.ts';
import type { Ground } from './ground.ts';
import type { Steps } from './steps.ts';
import type { Option, WayOf, Work } from './works.ts';

/** Larger sums are left out: their rank has no bound then. */
const GREATEST = 0x0fffffff;

/** A variable for each rank, no less than it is worth; null where its numbers are too large. */
export type RankVariables = readonly (number | null)[];

function total(
  { draft }: Ground,
  terms: readonly (Term & { readonly most: number })[],
): number | null {
  const most = terms.reduce((sum, term) => sum + term.most, 0);
  if (most > GREATEST) return null;
  const least = terms.reduce((sum, { fn, bound }) => sum + fn.at(draft.lowest(bound >> 1)), 0);
  const x = draft.variable(Math.min(least, most), most);
  if (terms.length > 0) draft.sum(terms, x);
  return x;
}

const linear = ({ draft }: Ground, x: number, weight: number): Term & { most: number } => ({
  bound: lowerOf(x),
  fn: scaled(weight),
  most: weight * draft.highest(x),
});

/** The overtime minutes of a crew with their price. */
function extraOf({ problem }: Ground, option: Option, way: WayOf): (start: number) => number {
  const { horizon } = problem;
  const paid = option.members.flatMap(({ builder }) =>
    problem.calendars[problem.builders[builder].calendar].overtime.map((one) => ({
      start: Math.max(0, one.start),
      end: Math.min(horizon, one.end),
      cost: one.cost,
    })),
  );
  const { pieces, hours, cleanDown } = way;
  return (start) => {
    const k = pieceOf(pieces, start);
    const end = start + pieces.offset[k] + cleanDown;
    let sum = 0;
    for (const one of paid) {
      const from = Math.max(start, one.start);
      const to = Math.min(end, one.end);
      if (from < to)
        sum += one.cost * (hours === null ? to - from : minutesBetween(hours, from, to));
    }
    return sum;
  };
}

function pieceOf({ high }: Pieces, start: number): number {
  let k = 0;
  while (high[k] < start) k += 1;
  return k;
}

/** Starts that are looked at one by one; where more are left, the least extra is taken to be nothing. */
const MOST_STARTS = 240;

/** The least extra over the starts from one to another, and no less than any. */
function leastExtra(
  ground: Ground,
  option: Option,
  way: WayOf,
): { least: (from: number, to: number) => number; most: number } {
  const { builders, calendars } = ground.problem;
  const extra = extraOf(ground, option, way);
  const rate = option.members.reduce((sum, { builder }) => {
    const { overtime } = calendars[builders[builder].calendar];
    return sum + Math.max(0, ...overtime.map(({ cost }) => cost));
  }, 0);
  const { low, high } = way.pieces;
  return {
    most: rate * (way.minutes + way.cleanDown),
    least(from, to) {
      if (to - from > MOST_STARTS) return 0;
      let value = Infinity;
      for (let k = 0; k < low.length && low[k] <= to; k += 1)
        for (let s = Math.max(from, low[k]); s <= Math.min(to, high[k]); s += 1) {
          value = Math.min(value, extra(s));
          if (value === 0) return 0;
        }
      return value === Infinity ? 0 : value;
    },
  };
}

/** What a work costs, slots not included. */
function costOf(ground: Ground, work: Work): number {
  const { draft } = ground;
  const options = work.ways.flatMap((way) =>
    way.options.map((option) => ({ way, option, when: option.when ?? way.when })),
  );
  const prices = options.flatMap(({ way, option, when }) => {
    if (!way.overtime || way.isRelaxed) return [];
    const { least, most } = leastExtra(ground, option, way);
    return most > 0 ? [{ when, least, most, base: option.pay }] : [];
  });
  const cost = draft.worth(
    options.map(({ when, option }) => ({ when, value: option.pay })),
    work.present,
    Math.max(0, ...prices.map(({ most }) => most)),
  );
  for (const { when, least, base } of prices)
    draft.rule(
      (trail, reason) =>
        new Price(trail, reason, {
          start: work.start,
          cost,
          base,
          when: when ?? work.present,
          least,
        }),
    );
  return cost;
}

/** A slot costs once, whoever uses it. */
function slotTerms(ground: Ground, works: readonly (Work | null)[]): (Term & { most: number })[] {
  const { problem, draft } = ground;
  const used = new Map<string, { cost: number; users: Condition[] }>();
  for (const work of works)
    for (const way of work?.ways ?? []) {
      const { slots } = problem.activities[work?.activity ?? 0].modes[way.mode];
      for (const { slot, when } of way.options) {
        if (slots === null || slot === null) continue;
        const { cost } = problem.slotLists[slots].slots[slot];
        if (cost === 0) continue;
        const key = `${String(slots)}/${String(slot)}`;
        const own = used.get(key) ?? { cost, users: [] };
        used.set(key, own);
        own.users.push(when ?? way.when ?? work?.present ?? null);
      }
    }
  return [...used.values()].map(({ cost, users }) => {
    const booked = draft.variable(users.includes(null) ? 1 : 0, 1);
    for (const user of users) draft.implies([user], atLeast(booked, 1));
    return linear(ground, booked, cost);
  });
}

const sameSet = (a: readonly number[], b: readonly number[]): boolean =>
  a.every((one) => b.includes(one)) && b.every((one) => a.includes(one));

/** Whether a published task is moved, has other people, or is left out, each with its weight. */
function disturbance(ground: Ground, work: Work, task: PublishedTask): (Term & { most: number })[] {
  const { problem, draft } = ground;
  const { start, present, ways } = work;
  const { weight } = task;
  if (weight === 0) return [];
  const tolerance = problem.published?.tolerance ?? 0;
  const moved = draft.boolean();
  draft.implies([present], moved, atMost(start, task.start + tolerance));
  draft.implies([present], moved, atLeast(start, task.start - tolerance));
  const terms = [linear(ground, variableOf(moved), weight)];
  const changed = draft.boolean();
  if (work.frozen) {
    const people = problem.activities[work.activity].fixed?.builders ?? [];
    if (!sameSet(people, task.builders)) draft.implies([present], changed);
  } else
    for (const way of ways) {
      // Those who are counted are not known by name: then nothing is asked.
      if (way.served.length > 0 || way.isRelaxed) continue;
      for (const { when, members } of way.options)
        if (
          !sameSet(
            members.map(({ builder }) => builder),
            task.builders,
          )
        )
          draft.implies([when ?? way.when ?? present], changed);
    }
  terms.push(linear(ground, variableOf(changed), weight));
  if (present !== null) {
    const missing = draft.boolean();
    draft.clause(present, missing);
    terms.push(linear(ground, variableOf(missing), weight));
  }
  return terms;
}

/** The finish of each refit: no earlier than that of any of its works that is present. */
function finishesOf({ problem, draft }: Ground, works: readonly (Work | null)[]): number[] {
  return problem.refits.map((_, r) => {
    const finish = draft.variable(0, problem.horizon);
    for (const work of works)
      if (work !== null && problem.activities[work.activity].refit === r)
        draft.link(work.finish, finish, shift(0), work.present);
    return finish;
  });
}

export function* ranksOf(
  ground: Ground,
  works: readonly (Work | null)[],
  ranked: number,
): Steps<RankVariables> {
  const { problem } = ground;
  const { refits, horizon } = problem;
  const finishes = finishesOf(ground, works);
  const late = refits.flatMap(({ due }, r) => {
    if (due === null) return [];
    const at = (t: number): number => promise(problem, r, t);
    return [{ bound: lowerOf(finishes[r]), fn: bisected(at, 0, horizon), most: at(horizon) }];
  });
  const ends = refits.flatMap(({ weight }, r) =>
    weight === 0 ? [] : [linear(ground, finishes[r], weight)],
  );
  const timed = [total(ground, late), total(ground, ends)];
  if (ranked <= 2) return [...timed, null, null];
  const costs: (Term & { most: number })[] = [];
  for (const work of works) {
    if (work === null || work.frozen) continue;
    yield;
    costs.push(linear(ground, costOf(ground, work), 1));
  }
  const money = costs.filter(({ most }) => most > 0);
  const moves = (problem.published?.tasks ?? []).flatMap((task) => {
    const work = works[task.activity];
    return work === null ? [] : disturbance(ground, work, task);
  });
  return [...timed, total(ground, [...money, ...slotTerms(ground, works)]), total(ground, moves)];
}
