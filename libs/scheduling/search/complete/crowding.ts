import type { Interval } from '../../model/problem.ts';
import type { Candidate } from './candidates.ts';
import { keep, type Domains } from './domains.ts';
import { open, type Minutes } from './minutes.ts';
import type { Shared } from './shared.ts';
import type { World } from './world.ts';

/** Something that has so much to give in a span, and what each candidate takes of it. */
interface Supply {
  /** What is given before each minute, from 0 to the horizon. */
  readonly before: Float64Array;
  /** By activity and candidate, what it takes. */
  readonly takes: readonly Float64Array[];
  /** What a candidate takes within [from, to). */
  readonly within: (k: number, c: number, from: number, to: number) => number;
}

const overlap = (spans: readonly Interval[], from: number, to: number): number => {
  let sum = 0;
  for (const { start, end } of spans) {
    const minutes = Math.min(end, to) - Math.max(start, from);
    if (minutes > 0) sum += minutes;
  }
  return sum;
};

const running = (given: (minute: number) => number, horizon: number): Float64Array => {
  const before = new Float64Array(horizon + 1);
  for (let t = 0; t < horizon; t += 1) before[t + 1] = before[t] + given(t);
  return before;
};

/** `heads` is how much of the supply a candidate takes in each minute of its `spans`. */
function supply(
  { domains, problem }: World,
  given: (minute: number) => number,
  heads: (c: Candidate) => number,
  spans: (c: Candidate) => readonly Interval[] = ({ busy }) => busy,
): Supply {
  const { horizon } = problem;
  const amounts = domains.map((domain) => Float64Array.from(domain, heads));
  const within = (k: number, c: number, from: number, to: number): number =>
    amounts[k][c] === 0 ? 0 : amounts[k][c] * overlap(spans(domains[k][c]), from, to);
  return {
    before: running(given, horizon),
    takes: domains.map((domain, k) =>
      Float64Array.from(domain, (_, c) => within(k, c, 0, horizon)),
    ),
    within,
  };
}

/** The people who may be on some of the work, for each such set of people. */
function people(world: World): Supply[] {
  const { problem, domains } = world;
  const { horizon, builders, calendars } = problem;
  const groups = new Map<string, Set<number>>();
  const add = (group: Iterable<number>): void => {
    const own = [...new Set(group)].sort((a, b) => a - b);
    if (own.length > 0 && own.every((b) => !builders[b].unlimited))
      groups.set(own.join(), new Set(own));
  };
  for (const domain of domains)
    add(domain.flatMap(({ way }) => way.crew.map(({ builder }) => builder)));
  for (const b of builders.keys()) add([b]);
  add(builders.keys());
  const hours: Minutes[] = builders.map(({ calendar }) =>
    open(calendars[calendar], horizon, true, false),
  );
  return [...groups.values()].map((group) =>
    supply(
      world,
      (t) => {
        let sum = 0;
        for (const b of group) sum += hours[b][t];
        return sum;
      },
      // Frozen work is not bound to hours and may take what is not given.
      ({ way }) => (way.frozen ? 0 : way.crew.filter(({ builder }) => group.has(builder)).length),
    ),
  );
}

function resources(world: World, { scarce }: Shared): Supply[] {
  const { problem } = world;
  return problem.resources.flatMap(({ steps }, resource) => {
    if (!scarce[resource]) return [];
    const capacity = new Int32Array(problem.horizon + 1);
    for (const step of steps) capacity.fill(step.capacity, Math.max(0, step.from));
    const heads = ({ way }: Candidate): number =>
      way.work.demands.reduce(
        (sum, demand) => sum + (demand.resource === resource ? demand.amount : 0),
        0,
      );
    return [supply(world, (t) => capacity[t], heads)];
  });
}

const parts = (world: World): Supply[] =>
  world.problem.parts.map((_, part) =>
    supply(
      world,
      () => 1,
      ({ way }) => (world.problem.activities[way.activity].parts.includes(part) ? 1 : 0),
      // A part is free while people and tools are cleaned, but not while work on it pauses.
      ({ start, finish }) => [{ start, end: finish }],
    ),
  );

/**
 * What lies in a span takes no more than is given in it: fails where work that has to lie in it
 * takes too much, and keeps other work from taking more of it than is left. The spans are
 * those from the earliest start of an activity to the latest end of one (the overload check and the
 * edge finding of unary resources, with energies in place of durations). -1 where it fails.
 */
export function crowding(world: World, shared: Shared): (domains: Domains) => number {
  const all = [...people(world), ...resources(world, shared), ...parts(world)].filter(
    ({ takes }) => takes.filter((own) => own.some((take) => take > 0)).length > 1,
  );
  const n = world.domains.length;
  const { horizon } = world.problem;
  const ends = world.domains.map((domain) => Int32Array.from(domain, ({ end }) => end));
  const least = new Float64Array(n);
  const latest = new Int32Array(n);
  const order = Array.from({ length: n }, (_, k) => k);

  const check = (domains: Domains, { before, takes, within }: Supply): number => {
    let any = 0;
    for (let k = 0; k < n; k += 1) {
      const live = domains.live[k];
      least[k] = Infinity;
      for (let i = 0; i < domains.count[k]; i += 1)
        if (takes[k][live[i]] < least[k]) least[k] = takes[k][live[i]];
    }
    for (const first of order) {
      if (least[first] === 0) continue;
      const from = Math.max(0, domains.minStart[first]);
      let taken = 0;
      for (let i = 0; i < n; i += 1) {
        const last = order[i];
        if (least[last] === 0 || domains.minStart[last] < from) continue;
        taken += least[last];
        const to = Math.min(horizon, latest[last]);
        const spare = before[to] - before[from] - taken;
        if (spare < 0) return -1;
        if (taken === least[last] || (i + 1 < n && latest[order[i + 1]] === latest[last])) continue;
        for (let j = 0; j < n; j += 1) {
          const other = order[j];
          if (j <= i && domains.minStart[other] >= from) continue;
          if (domains.placed[other] >= 0 || domains.minStart[other] >= to || latest[other] <= from)
            continue;
          const done = keep(world, domains, other, (c) => within(other, c, from, to) <= spare);
          if (done < 0) return -1;
          any |= done;
        }
      }
    }
    return any;
  };

  return (domains) => {
    let any = 0;
    for (let k = 0; k < n; k += 1) {
      const live = domains.live[k];
      latest[k] = 0;
      for (let i = 0; i < domains.count[k]; i += 1)
        if (ends[k][live[i]] > latest[k]) latest[k] = ends[k][live[i]];
    }
    order.sort((a, b) => latest[a] - latest[b]);
    for (const one of all) {
      const done = check(domains, one);
      if (done < 0) return -1;
      any |= done;
    }
    return any;
  };
}
