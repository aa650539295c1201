import type { Problem } from '../../../model/problem.ts';
import type { Spans } from '../../crew/compiled/spans.ts';
import { shift } from '../rules/monotone.ts';
import { not, type Condition, type Draft } from './draft.ts';
import { longestGap } from './hours.ts';
import type { Literal } from '../rules/link.ts';
import { keptOrder, type Focus } from './focus.ts';
import type { Work } from './works.ts';

/** From a work's start until `to` and `gap` minutes more, something else is kept out. */
export interface Stretch {
  readonly work: Work;
  readonly to: number;
  readonly gap: number;
}

/** One Boolean for each pair of works that cannot overlap for some reason: true, the first is first. */
export interface Orders {
  /** Where `when` holds they exclude each other: whichever comes later waits for the other's end and gap. */
  exclude(one: Stretch, other: Stretch, when: Condition): void;
  /** Whether the first is done before the second wherever both are. */
  precedes(one: Work, other: Work): boolean;
  /**
   * That the first has finished when the second starts: a literal, null where that is always so,
   * false where it never is. Of two absent works, or one, it says what suits the rules.
   */
  before(one: Work, other: Work): Condition | false;
  /** What other exclusions bring about: the two keep the order of a neighbourhood's plan. */
  keep(one: Work, other: Work): void;
  /** Whether two works that are in every plan are known never to overlap. */
  areApart(one: Work, other: Work): boolean;
  /** By pair asked for: the works, and the literal that the first is first. */
  readonly pairs: readonly {
    readonly first: Work;
    readonly second: Work;
    readonly goes: Literal;
  }[];
}

/**
 * Which work is done before which, wherever both are: by lags from finish to start that never open
 * before their anchor, closed over works that are there whenever the two are. O(works^3 / 32).
 */
function precedences(
  problem: Problem,
  works: readonly (Work | null)[],
  owner: readonly Condition[],
): Uint8Array[] {
  const n = works.length;
  const before = works.map(() => new Uint8Array(n));
  const isPresent = (k: Condition, i: Condition, j: Condition): boolean =>
    k === null || k === i || k === j;
  problem.lags.forEach((lag, l) => {
    if (lag.bound !== 'open' || lag.fromAnchor !== 'finish' || lag.toAnchor !== 'start') return;
    const from = works[lag.from];
    const to = works[lag.to];
    if (from === null || to === null || from === to) return;
    if (!isPresent(owner[l], from.present, to.present)) return;
    const never = (fn: (typeof lag.fns)[0]): boolean => {
      if (fn.kind === 'constant') return fn.minutes >= 0;
      const table = problem.tables[fn.table];
      const at = 'at' in table ? table.at : table.values.map((_, k) => k * table.grid);
      return table.values.every((value, k) => value >= at[k]);
    };
    if (lag.fns.every(never)) before[lag.from][lag.to] = 1;
  });
  for (let k = 0; k < n; k += 1) {
    const through = works[k]?.present ?? null;
    const after: number[] = [];
    for (let j = 0; j < n; j += 1) if (before[k][j] === 1) after.push(j);
    if (after.length === 0) continue;
    for (let i = 0; i < n; i += 1) {
      if (before[i][k] === 0) continue;
      for (const j of after)
        if (isPresent(through, works[i]?.present ?? null, works[j]?.present ?? null))
          before[i][j] = 1;
    }
  }
  return before;
}

export function ordersOf(
  problem: Problem,
  draft: Draft,
  works: readonly (Work | null)[],
  owner: readonly Condition[],
  focus: Focus | null,
): Orders {
  const order = precedences(problem, works, owner);
  const known = new Map<number, Literal>();
  const apart = works.map(() => new Uint8Array(works.length));
  /** Pairs that exclude each other wherever both are: of these alone the order says who waits. */
  const certain = new Set<number>();
  const pairOf = (a: number, b: number): number => Math.min(a, b) * works.length + Math.max(a, b);
  const pairs: { first: Work; second: Work; goes: Literal }[] = [];
  const goesFirst = (first: Work, second: Work): Literal => {
    const key = first.activity * works.length + second.activity;
    const own = known.get(key);
    if (own !== undefined) return own;
    const goes = draft.boolean();
    known.set(key, goes);
    pairs.push({ first, second, goes });
    return goes;
  };
  const isOut = ({ start }: Work): boolean => draft.lowest(start) >= draft.absent;
  const areApart = (one: Work, other: Work): boolean => apart[one.activity][other.activity] === 1;
  const precedes = (one: Work, other: Work): boolean => order[one.activity][other.activity] === 1;
  const finished = new Map<number, Literal>();
  const before = (one: Work, other: Work): Condition | false => {
    if (precedes(one, other)) return null;
    if (precedes(other, one)) return false;
    const [a, b] = [one.activity, other.activity];
    const kept = keptOrder(focus, a, b);
    if (certain.has(pairOf(a, b))) {
      if (kept !== 0) return kept === 1 ? null : false;
      const goes = known.get(pairOf(a, b));
      if (goes !== undefined) return a < b ? goes : not(goes);
    }
    const key = a * works.length + b;
    const made = finished.get(key);
    if (made !== undefined) return made;
    const is = draft.boolean();
    finished.set(key, is);
    draft.link(one.finish, other.start, shift(0), is);
    draft.link(other.start, one.finish, shift(1), not(is));
    return is;
  };
  const setApart = (a: number, b: number): void => {
    apart[a][b] = 1;
    apart[b][a] = 1;
  };
  return {
    before,
    keep({ activity: a }, { activity: b }) {
      setApart(a, b);
      certain.add(pairOf(a, b));
    },
    precedes,
    areApart: (one, other) => areApart(one, other) || precedes(one, other) || precedes(other, one),
    pairs,
    exclude(one, other, when) {
      if (one.work.activity > other.work.activity) {
        this.exclude(other, one, when);
        return;
      }
      if (isOut(one.work) || isOut(other.work)) return;
      const plain = one.to === one.work.finish && other.to === other.work.finish;
      if (plain && one.gap + other.gap === 0 && areApart(one.work, other.work)) return;
      if (plain && when === null && one.work.present === null && other.work.present === null)
        setApart(one.work.activity, other.work.activity);
      if (when === null) certain.add(pairOf(one.work.activity, other.work.activity));
      const wait = (first: Stretch, second: Stretch, ...conditions: Condition[]): void => {
        draft.link(first.to, second.work.start, shift(first.gap), ...conditions);
      };
      const kept = keptOrder(focus, one.work.activity, other.work.activity);
      if (kept !== 0 && !precedes(one.work, other.work) && !precedes(other.work, one.work)) {
        if (kept === 1) wait(one, other, when, one.work.present);
        else wait(other, one, when, other.work.present);
        return;
      }
      if (precedes(one.work, other.work)) {
        if (one.gap > 0 || one.to !== one.work.finish) wait(one, other, when, one.work.present);
      } else if (precedes(other.work, one.work)) {
        if (other.gap > 0 || other.to !== other.work.finish)
          wait(other, one, when, other.work.present);
      } else {
        const goes = goesFirst(one.work, other.work);
        wait(one, other, goes, when);
        wait(other, one, not(goes), when);
      }
    },
  };
}

/** When something is taken by work: in the minutes of `hours`, or throughout, at least so many. */
export interface Occupied {
  readonly hours: Spans | null;
  readonly shifts: Spans | null;
  readonly least: number;
}

/** Whether the two take something in the same minute whenever they overlap at all. */
export function clash(one: Occupied, other: Occupied, horizon: number): boolean {
  if (one.least <= 0 || other.least <= 0) return false;
  if (one.hours === other.hours) return true;
  if (one.hours !== null && other.hours !== null) return false;
  const [pausing, whole] = one.hours === null ? [other, one] : [one, other];
  return pausing.hours !== null && longestGap(pausing.hours, whole.shifts, horizon) < whole.least;
}
