import type { Problem } from '../../../model/problem.ts';
import type { Spans } from '../../crew/compiled/spans.ts';
import { shift } from '../rules/monotone.ts';
import { Apart } from '../rules/apart.ts';
import type { Use } from '../rules/occupancy.ts';
import { asTimes, openings } from './barriers.ts';
import type { Condition } from './draft.ts';
import { joined } from './ends.ts';
import { bySpace, exposuresOf, some, type Exposure } from './exposure.ts';
import { keptOrder } from './focus.ts';
import { lengthened, longestGap } from './hours.ts';
import type { Orders } from './orders.ts';
import { addUsage } from './supplies.ts';
import type { Ground } from './ground.ts';
import type { Steps } from './steps.ts';
import type { WayOf, Work } from './works.ts';

/** Where dust comes from. */
interface Dust {
  readonly work: Work;
  readonly space: number;
  readonly when: Condition;
  /** The minutes in which it is made or hangs in the air; null: throughout, and until it has settled. */
  readonly hours: Spans | null;
  readonly settling: number;
}

/** The ways of dust from one space to another: through nothing (null), or a barrier that somebody works. */
function routesOf(
  problem: Problem,
  worked: ReadonlySet<number>,
  from: number,
  to: number,
): (number | null)[] {
  const routes = problem.spaces[from].dustReaches.flatMap(({ space, barrier }) => {
    if (space !== to) return [];
    if (barrier === null) return [null];
    if (worked.has(barrier)) return [barrier];
    return problem.barriers[barrier].closed ? [] : [null];
  });
  return routes.includes(null) ? [null] : routes;
}

/** Dust and an exposure that the plan has one after the other, and that a neighbourhood leaves so. */
function stayApart({ draft, focus }: Ground, dust: Dust, open: Exposure): boolean {
  const { work, settling } = dust;
  const made = focus?.placed[work.activity] ?? null;
  const laid = focus?.placed[open.work.activity] ?? null;
  if (made === null || laid === null) return false;
  if (keptOrder(focus, work.activity, open.work.activity) === 0) return false;
  const when = joined(draft, [dust.when, open.when]);
  if (made.finish + settling <= laid.start)
    draft.link(work.finish, open.work.start, shift(settling), ...when);
  else if (open.planned <= made.start) draft.link(open.until, work.start, shift(0), ...when);
  else return false;
  return true;
}

function dustOf(ground: Ground, work: Work): Dust[] {
  const { problem } = ground;
  const { modes } = problem.activities[work.activity];
  const isDusty = ({ mode, minutes }: WayOf): boolean => minutes > 0 && modes[mode].air === 'dusty';
  return [...bySpace(ground, work, isDusty)].flatMap(([space, ways]) => {
    const { settling } = problem.spaces[space];
    const patterns = [...new Set(ways.map(({ hours }) => hours))];
    return patterns.map((hours): Dust => ({
      work,
      space,
      when: some(
        ground,
        work,
        ways.filter((way) => way.hours === hours),
      ),
      hours: hours === null ? null : lengthened(hours, settling, problem.horizon),
      settling,
    }));
  });
}

/** No dust where something is wet or open, nor before it has settled. */
export function* addAir(ground: Ground, works: readonly Work[], orders: Orders): Steps<void> {
  const { problem } = ground;
  const worked = new Set(
    problem.activities.flatMap(({ modes }) =>
      modes.flatMap(({ barrier }) => barrier?.barrier ?? []),
    ),
  );
  const dusts = works.flatMap((work) => dustOf(ground, work));
  if (dusts.length === 0) return;
  yield;
  const exposed = exposuresOf(ground, works, orders);
  const gates = new Map<number, Use[]>();
  const uses: Use[] = [];
  const pairs: [number, number][] = [];
  const numberOf = new Map<Dust | Exposure, number>();
  const found = (one: Dust | Exposure, use: () => Use): number => {
    const known = numberOf.get(one) ?? uses.push(use()) - 1;
    numberOf.set(one, known);
    return known;
  };
  const keepApart = (dust: Dust, open: Exposure): void => {
    if (!putInOrder(ground, dust, open, orders))
      pairs.push([
        found(dust, () => useOfDust(ground, dust)),
        found(open, () => useOfExposure(ground, open)),
      ]);
  };
  for (const dust of dusts) {
    yield;
    for (const open of exposed) {
      if (open.work === dust.work) continue;
      for (const barrier of routesOf(problem, worked, dust.space, open.space)) {
        if (stayApart(ground, dust, open)) continue;
        if (barrier === null) keepApart(dust, open);
        else {
          const gate = gates.get(barrier) ?? openings(ground, barrier, works, orders);
          gates.set(barrier, gate);
          keepOutside(ground, dust, open, gate);
        }
      }
    }
  }
  const { draft } = ground;
  const { absent } = draft;
  if (pairs.length > 0)
    draft.rule((trail, reason) => new Apart(trail, reason, { uses, pairs, absent }));
}

/** Dust, what is open, and a barrier that is not closed: two of the three at a time. */
function keepOutside(ground: Ground, dust: Dust, open: Exposure, gate: readonly Use[]): void {
  const uses = [useOfDust(ground, dust), useOfExposure(ground, open), ...gate];
  addUsage(ground.draft, [{ from: 0, capacity: 2 }], uses);
}

function useOfDust(ground: Ground, { work, settling, hours, when }: Dust): Use {
  const { start, finish } = work;
  return { start, finish, tail: settling, amount: 1, times: asTimes(ground, when), hours };
}

function useOfExposure(ground: Ground, { work, until, when }: Exposure): Use {
  const times = asTimes(ground, when);
  return { start: work.start, finish: until, tail: 0, amount: 1, times, hours: null };
}

/** Whether the two exclude each other from beginning to end; then one waits for the other. */
function putInOrder(ground: Ground, dust: Dust, open: Exposure, orders: Orders): boolean {
  const { problem, draft } = ground;
  const { work, settling, hours } = dust;
  const isApart =
    open.least > 0 &&
    (hours === null || longestGap(hours, open.inside, problem.horizon) < open.least);
  if (!isApart) return false;
  const both = joined(draft, [dust.when, open.when]);
  let when: Condition = both.length === 0 ? null : both[0];
  if (both.length === 2) {
    when = draft.boolean();
    draft.implies(both, when);
  }
  const first = { work, to: work.finish, gap: settling };
  orders.exclude(first, { work: open.work, to: open.until, gap: 0 }, when);
  return true;
}
