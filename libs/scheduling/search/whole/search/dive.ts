import { lowerOf, upperOf } from '../../../propagation/literal.ts';
import { holds } from '../plan.ts';
import type { Condition } from '../model/draft.ts';
import type { WholeModel } from '../model/whole.ts';
import type { Option, WayOf, Work } from '../model/works.ts';
import { pointFrom, type Point } from '../rules/pieces.ts';

/** Values to prefer where a decision is between named things; null: none yet. */
export interface Preference {
  values: Int32Array | null;
}

/**
 * A dive by time: branches first, then the work that can begin first, the way that ends it first,
 * the crew that is free first, its start, and last who of a class serves what. False if all that
 * makes a plan is fixed. O(works * options) a decision.
 */
export function diveOf(model: WholeModel, preference: Preference): () => boolean {
  const { network, works, branches, classes, problem } = model;
  const { bound } = network.trail;
  const point: Point = { s: 0, e: 0 };
  const freeFrom = new Float64Array(classes.members.length);
  const breadth = classes.members.map(([b]) => problem.builders[b].abilities.length);

  const isTrue = (literal: Condition): boolean => literal === null || bound[literal.b] >= literal.v;
  const isFalse = (literal: Condition): boolean =>
    literal !== null && bound[literal.b ^ 1] >= 1 - literal.v;
  const isOpen = (literal: Condition): boolean => !isTrue(literal) && !isFalse(literal);
  const isPreferred = (literal: Condition): boolean =>
    preference.values !== null && holds(preference.values, literal);
  const take = (literal: Condition): boolean => {
    if (literal === null) return false;
    network.decide(literal.b, literal.v);
    return true;
  };

  const branch = (): boolean => {
    for (const own of branches) {
      if (own.some((literal) => isTrue(literal))) continue;
      const open = own.filter((literal) => isOpen(literal));
      return take(open.find((literal) => isPreferred(literal)) ?? open[0]);
    }
    return false;
  };

  const wayOf = (work: Work): WayOf | null => {
    for (const way of work.ways) if (isTrue(way.when)) return way;
    return null;
  };

  /** By class, when the last work that is placed lets it go. */
  const measure = (): void => {
    freeFrom.fill(0);
    for (const { start, finish, taken } of works) {
      if (bound[lowerOf(start)] !== -bound[upperOf(start)]) continue;
      for (const { builders, count } of taken)
        if (bound[lowerOf(count)] > 0)
          freeFrom[builders] = Math.max(freeFrom[builders], bound[lowerOf(finish)]);
    }
  };

  const chooseWay = (work: Work): boolean => {
    let chosen: WayOf | null = null;
    let first = Infinity;
    for (const way of work.ways) {
      if (!isOpen(way.when)) continue;
      const fits = pointFrom(
        way.pieces,
        bound[lowerOf(work.start)],
        bound[lowerOf(work.finish)],
        point,
      );
      const end = isPreferred(way.when) ? -Infinity : fits ? point.e : Infinity;
      if (chosen !== null && end >= first) continue;
      chosen = way;
      first = end;
    }
    return take(chosen?.when ?? null);
  };

  const chooseOption = (way: WayOf): boolean => {
    const { options } = way;
    if (options.some(({ when }) => isTrue(when))) return false;
    measure();
    let chosen: Option | null = null;
    let first = Infinity;
    for (const option of options) {
      if (!isOpen(option.when)) continue;
      let free = isPreferred(option.when) ? -Infinity : 0;
      if (free === 0)
        for (const { builder } of option.members)
          free = Math.max(free, freeFrom[classes.of[builder]]);
      if (chosen !== null && free >= first) continue;
      chosen = option;
      first = free;
    }
    return take(chosen?.when ?? null);
  };

  const chooseServed = (work: Work): boolean => {
    const way = wayOf(work);
    let chosen = -1;
    let least = Infinity;
    for (const { count, builders } of way?.served ?? []) {
      if (bound[lowerOf(count)] === -bound[upperOf(count)]) continue;
      if (breadth[builders] >= least) continue;
      chosen = count;
      least = breadth[builders];
    }
    if (chosen < 0) return false;
    network.decide(lowerOf(chosen), -bound[upperOf(chosen)]);
    return true;
  };

  return () => {
    if (branch()) return true;
    let chosen: Work | null = null;
    let early = 0;
    let late = 0;
    for (const work of works) {
      if (work.frozen ? wayOf(work) !== null : isFalse(work.present)) continue;
      const lower = bound[lowerOf(work.start)];
      const upper = -bound[upperOf(work.start)];
      const way = wayOf(work);
      const settled =
        lower === upper &&
        way !== null &&
        (way.options.length === 0 || way.options.some(({ when }) => isTrue(when)));
      if (settled) continue;
      if (chosen !== null && (lower > early || (lower === early && upper >= late))) continue;
      chosen = work;
      early = lower;
      late = upper;
    }
    if (chosen !== null) {
      const way = wayOf(chosen);
      if (way === null) return chooseWay(chosen);
      if (chooseOption(way)) return true;
      network.decide(upperOf(chosen.start), -early);
      return true;
    }
    for (const work of works) if (!isFalse(work.present) && chooseServed(work)) return true;
    return false;
  };
}
