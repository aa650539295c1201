import { latestOpened } from '../../model/lag-inverse.ts';
import { functionFor } from '../../model/lag.ts';
import type { OpenSurface } from '../../model/problem.ts';
import type { Located, LocatedPlan } from '../located.ts';
import { ofSurface } from '../obstacles/air.ts';
import { moves } from '../obstacles/parts.ts';
import { idOf, inOrder, placedOf, type KeptOrders, type Stretch } from './kept.ts';
import { film } from './people.ts';

/** Something open, in all the spaces that it is ever in, and who decides where it is and how long. */
interface Openness extends Stretch {
  readonly spaces: ReadonlySet<number>;
  readonly deciders: readonly number[];
}

/** What ends a surface: its first cover, or its owner's finish. */
function endOf(
  { problem, at }: LocatedPlan,
  surface: OpenSurface,
  owner: Located,
): Stretch['ends'] {
  const cover = surface.coveredBy
    .flatMap((c) => at[c] ?? [])
    .toSorted((x, y) => x.shape.start - y.shape.start)
    .at(0);
  if (cover) return [{ before: idOf(cover), anchor: 'start', latest: (start) => start }];
  const fn = functionFor(surface.until, owner.placement.mode);
  return [
    {
      before: idOf(owner),
      anchor: 'finish',
      latest: (start) => latestOpened(problem, fn, start),
    },
  ];
}

function opennesses(located: LocatedPlan, kept: KeptOrders): Openness[] {
  const { problem, at } = located;
  const wet = placedOf(located).flatMap((one): Openness[] =>
    one.mode.air === 'wet' && one.mode.space !== null && one.shape.start < one.shape.end
      ? [{ ...film(one), spaces: new Set([one.mode.space]), deciders: [idOf(one)] }]
      : [],
  );
  const open = problem.surfaces.flatMap((surface): Openness[] => {
    const owner = at[surface.activity];
    if (!owner) return [];
    const alone = ofSurface(located, surface).filter(({ end }) => end > owner.shape.start);
    const ends = endOf(located, surface, owner);
    if (alone.length === 0) {
      // Never open, for instance covered before: it has to stay so.
      for (const end of ends)
        if (end.before === surface.activity) kept.woven.add(surface.activity);
        else kept.pairs.push({ ...end, after: surface.activity });
      return [];
    }
    const movers = owner.activity.parts.slice(0, 1).flatMap((part) => moves(located, part));
    return [
      {
        owner: surface.activity,
        start: owner.shape.start,
        end: alone.reduce((latest, { end }) => Math.max(latest, end), 0),
        ends,
        spaces: new Set(alone.map(({ space }) => space)),
        deciders: [surface.activity, ...ends.map(({ before }) => before), ...movers.map(idOf)],
      },
    ];
  });
  return [...wet, ...open];
}

function dustOf({ problem }: LocatedPlan, one: Located): Stretch | null {
  const { space, air } = one.mode;
  if (air !== 'dusty' || space === null || one.shape.start === one.shape.end) return null;
  const { settling } = problem.spaces[space];
  const { start, end } = one.shape;
  return {
    owner: idOf(one),
    start,
    end: end + settling,
    ends: [{ before: idOf(one), anchor: 'finish', latest: (s) => s - settling }],
  };
}

/**
 * Dust keeps its order to what it would harm, settling and the closing of the surface counted in,
 * barriers left aside. Dust that a barrier, a pause or another place kept away from
 * something open stays, with all that decide when and where that is open.
 */
export function keepAir(located: LocatedPlan, kept: KeptOrders): void {
  const bySpace: Openness[][] = located.problem.spaces.map(() => []);
  for (const exposure of opennesses(located, kept))
    for (const space of exposure.spaces) bySpace[space].push(exposure);
  for (const one of placedOf(located)) {
    const dust = dustOf(located, one);
    if (dust === null || one.mode.space === null) continue;
    const { dustReaches } = located.problem.spaces[one.mode.space];
    for (const exposure of new Set(dustReaches.flatMap(({ space }) => bySpace[space]))) {
      if (exposure.owner === dust.owner || inOrder(kept, dust, exposure)) continue;
      kept.woven.add(dust.owner);
      for (const a of exposure.deciders) kept.woven.add(a);
    }
  }
}
