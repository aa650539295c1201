import type { Milestone } from '#cure/material/material.ts';
import type { Anchor, Lag, LagFunction } from '#scheduling/model/problem.ts';
import type { Task, TaskLink } from '../../workload/workload.ts';
import type { Moment } from '../../yard/procedures.ts';
import { reachedOrNever, type Films } from '../films/films.ts';
import type { Begun } from './frozen.ts';
import type { Whereabouts } from '../films/whereabouts.ts';

type Bound = Lag['bound'];

const milestoneKinds: Partial<Record<Milestone, string>> = {
  'tacky-opens': 'tack',
  'tacky-closes': 'tack',
  'bond-opens': 'bond',
  'bond-closes': 'bond',
  sandable: 'sand',
  handle: 'handle',
  cured: 'cure',
};

/** What a lag is called in explanations. */
function kindOf({ setBy }: TaskLink, moment: Moment, bound: Bound): string {
  if (setBy === 'foreman') return 'order';
  if (moment.kind === 'milestone') {
    // To wait until a window is over is no part of it.
    const ends = moment.milestone === 'tacky-closes' || moment.milestone === 'bond-closes';
    if (ends && bound === 'open') return moment.milestone;
    return milestoneKinds[moment.milestone] ?? moment.milestone;
  }
  if (bound === 'close') return 'stale';
  return moment.minutes === 0 ? 'sequence' : 'wait';
}

/**
 * Where a bound applies. Unknown sweep: opens from the earlier's finish to the later's
 * start, closes from the earlier's start to the later's finish. Same sweep: start to
 * start and finish to finish.
 */
export function anchorsOf(
  sweep: TaskLink['sweep'],
  bound: Bound,
): readonly (readonly [from: Anchor, to: Anchor])[] {
  if (sweep === 'same') {
    return [
      ['start', 'start'],
      ['finish', 'finish'],
    ];
  }
  return bound === 'open' ? [['finish', 'start']] : [['start', 'finish']];
}

export interface LagSite {
  readonly films: Films;
  readonly horizon: number;
  readonly index: ReadonlyMap<string, number>;
  task(id: string): Task;
  begun(id: string): Begun | null;
  readonly whereabouts: Whereabouts;
}

/** A film laid before the plan begins has an exact moment: a constant from where the problem puts its task. */
export function ofBegun(
  begun: Begun,
  anchor: Anchor,
  reached: (minute: number) => number,
): LagFunction {
  const [real, placed] =
    anchor === 'start' ? [begun.start, begun.placedStart] : [begun.finish, begun.placedFinish];
  return { kind: 'constant', minutes: reached(real) - placed };
}

function functionOf(
  link: TaskLink,
  moment: Moment,
  bound: Bound,
  anchor: Anchor,
  site: LagSite,
): LagFunction {
  const from = site.task(link.from);
  const begun = site.begun(link.from);
  if (moment.kind === 'after') {
    return begun === null
      ? { kind: 'constant', minutes: moment.minutes }
      : ofBegun(begun, anchor, (minute) => minute + moment.minutes);
  }
  if (from.material === null)
    throw new Error(`link ${link.id} reads the film of ${from.id}, which lays none`);
  const places = site.whereabouts.ofLink(link, moment.milestone, bound);
  if (begun === null)
    return {
      kind: 'table',
      table: site.films.table(from.material, moment.milestone, bound, places),
    };
  const clock = site.films.clock(from.material, moment.milestone, bound, places);
  return ofBegun(begun, anchor, (minute) => reachedOrNever(clock, minute, site.horizon));
}

/**
 * The lags of a link; none into work that has begun, where there is nothing left to decide. Of work
 * that was put aside only the rest is to come: it was begun in time.
 */
export function lagsOf(link: TaskLink, site: LagSite): Lag[] {
  const [from, to] = [site.index.get(link.from), site.index.get(link.to)];
  if (from === undefined || to === undefined || site.begun(link.to) !== null) return [];
  const sides: readonly (readonly [Bound, Moment | null])[] = [
    ['open', link.opens],
    ['close', link.closes],
  ];
  return sides.flatMap(([bound, moment]) => {
    if (moment === null) return [];
    const hasBegun = bound === 'close' && site.task(link.to).state === 'paused';
    const anchors = anchorsOf(link.sweep, bound).filter(([, at]) => !hasBegun || at === 'finish');
    return anchors.map(([fromAnchor, toAnchor]): Lag => ({
      id: `${link.id}#${bound}-${toAnchor}`,
      from,
      fromAnchor,
      to,
      toAnchor,
      bound,
      fns: [functionOf(link, moment, bound, fromAnchor, site)],
      kind: kindOf(link, moment, bound),
      source: `link:${link.id}`,
    }));
  });
}
