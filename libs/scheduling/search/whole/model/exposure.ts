import { functionFor, opensAt } from '../../../model/lag.ts';
import type { LagFunctions, OpenSurface, Problem } from '../../../model/problem.ts';
import type { Spans } from '../../crew/compiled/spans.ts';
import { shift } from '../rules/monotone.ts';
import { not, type Condition } from './draft.ts';
import { moversOf, type Mover } from './located.ts';
import { byMode, joined, opening } from './ends.ts';
import type { Orders } from './orders.ts';
import type { Ground } from './ground.ts';
import type { WayOf, Work } from './works.ts';

/** What may not be reached by dust, from a work's start until a variable, in a space. */
export interface Exposure {
  readonly work: Work;
  readonly until: number;
  readonly space: number;
  readonly when: Condition;
  /** It lasts no less than this; 0 where it may be over before it begins. */
  readonly least: number;
  /** The spans of which one holds it, where it is known to. */
  readonly inside: Spans | null;
  /** When it ends in the plan that a neighbourhood is part of; Infinity where that is not known. */
  readonly planned: number;
}

/** It lasts until its anchor at least: a constant that is not negative, a table that never falls behind. */
const isForwards = (problem: Problem, fns: LagFunctions): boolean =>
  fns.every((fn) => {
    if (fn.kind === 'constant') return fn.minutes >= 0;
    const table = problem.tables[fn.table];
    return table.values.every(
      (value, k) => value >= ('at' in table ? table.at[k] : k * table.grid),
    );
  });

/** Until when a surface is open: the first cover's start, or else what the material says. */
function openUntil(
  { problem, draft }: Ground,
  surface: OpenSurface,
  owner: Work,
  coverers: readonly Work[],
): number {
  const until = draft.variable(Math.min(0, draft.lowest(owner.start)), draft.absent);
  const certain = coverers.length === 1 && coverers[0].present === null;
  const first = coverers.map((): Condition => (certain ? null : draft.boolean()));
  coverers.forEach((work, k) => {
    draft.link(work.start, until, shift(0), first[k]);
    if (first[k] !== null) draft.implies([first[k]], work.present);
  });
  if (coverers.some(({ present }) => present === null)) {
    if (!certain) draft.clause(...first);
    return until;
  }
  const bare: Condition = coverers.length === 0 ? null : draft.boolean();
  if (bare !== null) {
    draft.clause(...first, bare);
    for (const { present } of coverers) if (present !== null) draft.implies([bare], not(present));
  }
  for (const { when, fn } of byMode(owner, surface.until))
    draft.link(owner.finish, until, opening(problem, fn), ...joined(draft, [when, bare]));
  return until;
}

/**
 * No later than `until`, and no later than the finish of any of these moves that comes after `from`:
 * the sooner of them is what a solution takes.
 */
function untilMoved(
  { draft }: Ground,
  from: Work,
  until: number,
  later: readonly Mover[],
  orders: Orders,
): number {
  const moving = later.flatMap(({ work, moves }) => {
    const after = orders.before(from, work);
    return after === false ? [] : [{ work, moves, after }];
  });
  if (moving.length === 0) return until;
  const end = draft.variable(Math.min(0, draft.lowest(from.start)), draft.absent);
  const stays = draft.boolean();
  draft.link(until, end, shift(0), stays);
  const chosen = moving.map(({ work, moves, after }) => {
    const first = draft.boolean();
    draft.link(work.finish, end, shift(0), first);
    draft.implies([first], moves);
    draft.implies([first], after);
    return first;
  });
  draft.clause(stays, ...chosen);
  return end;
}

/** A film goes where its part is moved: in both spaces while that is done. */
function carriedExposures(
  ground: Ground,
  owner: Work,
  until: number,
  movers: readonly Mover[],
  orders: Orders,
): Exposure[] {
  const { draft } = ground;
  const base = { least: 0, inside: null, planned: Infinity };
  const end = untilMoved(ground, owner, until, movers, orders);
  const exposed = [...bySpace(ground, owner, () => true)].map(([space, ways]): Exposure => ({
    ...base,
    work: owner,
    until: end,
    space,
    when: some(ground, owner, ways),
  }));
  for (const mover of movers) {
    const after = orders.before(owner, mover.work);
    if (after === false) continue;
    const others = movers.filter((one) => one !== mover);
    const left = untilMoved(ground, mover.work, until, others, orders);
    for (const [space, moved] of mover.to) {
      const all = joined(draft, [moved, after, owner.present]);
      let when: Condition = all.length === 0 ? null : all[0];
      if (all.length === 2) {
        when = draft.boolean();
        draft.implies(all, when);
      }
      exposed.push({ ...base, work: mover.work, until: left, space, when });
    }
  }
  return exposed;
}

/** When a surface is safe in the plan that a neighbourhood is part of. */
function plannedEnd(
  { problem, focus }: Ground,
  { activity, coveredBy, until }: OpenSurface,
): number {
  const owner = focus?.placed[activity] ?? null;
  if (focus === null || owner === null) return Infinity;
  const covers = coveredBy.flatMap((a) => focus.placed[a]?.start ?? []);
  return covers.length > 0
    ? Math.min(...covers)
    : opensAt(problem, functionFor(until, owner.mode), owner.finish);
}

/** Ways by the space that they are in. */
export function bySpace(
  { problem }: Ground,
  work: Work,
  of: (way: WayOf) => boolean,
): Map<number, WayOf[]> {
  const spaces = new Map<number, WayOf[]>();
  for (const way of work.ways) {
    const { space } = problem.activities[work.activity].modes[way.mode];
    if (space !== null && of(way)) spaces.set(space, [...(spaces.get(space) ?? []), way]);
  }
  return spaces;
}

export const some = ({ draft }: Ground, work: Work, ways: readonly WayOf[]): Condition =>
  ways.length === work.ways.length ? null : draft.either(ways.map(({ when }) => when));

/** All that is wet or open. */
export function exposuresOf(ground: Ground, works: readonly Work[], orders: Orders): Exposure[] {
  const { problem } = ground;
  const exposed: Exposure[] = [];
  for (const work of works) {
    const { modes } = problem.activities[work.activity];
    for (const [space, ways] of bySpace(ground, work, ({ mode }) => modes[mode].air === 'wet'))
      exposed.push({
        work,
        until: work.finish,
        space,
        when: some(ground, work, ways),
        least: Math.min(...ways.map(({ minutes }) => minutes)),
        inside: ways.length === 1 && ways[0].hours === null ? ways[0].shifts : null,
        planned: ground.focus?.placed[work.activity]?.finish ?? Infinity,
      });
  }
  for (const surface of problem.surfaces) {
    const owner = works[surface.activity];
    const coverers = surface.coveredBy.map((a) => works[a]);
    const until = openUntil(ground, surface, owner, coverers);
    const carrying = problem.activities[surface.activity].parts
      .slice(0, 1)
      .flatMap((part) => moversOf(ground, part, works))
      .filter(({ work }) => work !== owner);
    if (carrying.length > 0) {
      exposed.push(...carriedExposures(ground, owner, until, carrying, orders));
      continue;
    }
    const lasts =
      coverers.every((one) => orders.precedes(owner, one)) && isForwards(problem, surface.until);
    for (const [space, ways] of bySpace(ground, owner, () => true))
      exposed.push({
        work: owner,
        until,
        space,
        when: some(ground, owner, ways),
        least: lasts ? Math.min(...ways.map(({ minutes }) => minutes)) : 0,
        inside: null,
        planned: plannedEnd(ground, surface),
      });
  }
  return exposed;
}
