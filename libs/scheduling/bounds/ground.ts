import type { Hold, Mode, Problem } from '../model/problem.ts';
import { speedFor, type CrewOption } from '../search/crew/compiled/crews.ts';
import type { Spans } from '../search/crew/compiled/spans.ts';
import { enough, hoursOf, indexed, shared, union, type Flat, type Hours } from './hours.ts';
import { subtract } from '../search/crew/compiled/spans.ts';

/** What resources leave of time to work that asks for some of each in every minute. */
export interface Fence {
  readonly lists: readonly Flat[];
  /** What is left of crews' shifts, of their working time, and of that without overtime, by crew. */
  readonly shifts: Map<number, Spans>;
  readonly working: Map<number, Spans>;
  readonly regular: Map<number, Spans>;
}

export const demands = (mode: Mode, resource: number): boolean =>
  mode.demands.some((one) => one.resource === resource && one.amount > 0);

/** Crews that share their time, by one of them. */
export interface CrewGroup {
  readonly builders: readonly number[];
  /** Together, of the fastest and of the slowest crew. */
  fastest: number;
  slowest: number;
}

/** What ways are made from, looked up once. */
export interface Ground {
  readonly problem: Problem;
  /** By part: the spaces that it may ever be in. */
  readonly places: readonly ReadonlySet<number>[];
  /** By activity: the amounts that its holds take of resources. */
  readonly held: readonly (readonly Hold[])[];
  /** Builders with the same key share their time. */
  crewKey(builders: readonly number[]): number;
  /** The crews of a mode by the time they share; `only`: the builders that the foreman has set. */
  groups(
    mode: Mode,
    only: readonly number[] | null,
    crews: readonly CrewOption[],
  ): readonly CrewGroup[];
  /** `amounts`: what is asked of each resource while the mode works. */
  fence(mode: Mode, amounts: ReadonlyMap<number, number>): Fence;
  /** Working minutes of work that pauses, with overtime or without; null: nobody is needed. */
  working(builders: readonly number[] | null, fence: Fence, overtime: boolean): Spans;
  /** The spans of which one has to hold work in one piece; overtime counts. */
  pieces(builders: readonly number[] | null, fence: Fence, relieved: boolean): Spans;
}

/** When frozen work has each builder. */
export function frozenTime({ activities, builders }: Problem): Flat[] {
  const busy: number[][] = builders.map(() => []);
  for (const { fixed } of activities) {
    if (fixed?.kind !== 'frozen') continue;
    const start = fixed.start ?? 0;
    const finish = fixed.finish ?? start;
    for (const b of fixed.builders ?? [])
      if (!builders[b].unlimited && start < finish) busy[b] = union(busy[b], [start, finish]);
  }
  return busy;
}

function placesOf({ parts, activities }: Problem): Set<number>[] {
  const places = parts.map(({ space }) => new Set([space]));
  for (const activity of activities)
    for (const { movesTo } of activity.modes)
      if (movesTo !== null) for (const part of activity.parts) places[part].add(movesTo);
  return places;
}

/** Kinds of builders of which a set is a mask of bits. */
const MASK = 31;

/** In place of a crew's key. */
const NOBODY = -1;

const equal = (a: Flat, b: Flat): boolean =>
  a.length === b.length && a.every((minute, i) => minute === b[i]);

const sameHours = (a: Hours, b: Hours): boolean =>
  equal(a.shifts, b.shifts) && equal(a.work, b.work);

/** By builder: those with the same number work the same hours and lose the same to frozen work. */
function alike(
  { builders }: Problem,
  frozen: readonly Flat[],
  regular: readonly Hours[],
  overtime: readonly Hours[],
): number[] {
  const firsts: number[] = [];
  return builders.map(({ calendar }, b) => {
    const known = firsts.findIndex(
      (f) =>
        sameHours(regular[builders[f].calendar], regular[calendar]) &&
        sameHours(overtime[builders[f].calendar], overtime[calendar]) &&
        equal(frozen[f], frozen[b]),
    );
    return known >= 0 ? known : firsts.push(b) - 1;
  });
}

/** What frozen work or a shortage takes from splittable work counts as a pause, which is weaker than the rules. */
export function groundOf(problem: Problem): Ground {
  const frozen = frozenTime(problem);
  const own = [false, true].map((overtime) =>
    problem.calendars.map((calendar) => hoursOf(calendar, overtime)),
  );
  const kinds = alike(problem, frozen, own[0], own[1]);
  const crews = new Map<string, Hours>();
  const fences = new Map<string, Fence>();

  const interned = new Map<string, number>();
  const crewKey = (builders: readonly number[]): number => {
    let mask = 0;
    for (const b of builders) {
      if (kinds[b] >= MASK) mask = -1;
      if (mask < 0) break;
      mask |= 1 << kinds[b];
    }
    if (mask >= 0) return mask;
    const key = [...new Set(builders.map((b) => kinds[b]))].sort((x, y) => x - y).join();
    const number = interned.get(key) ?? -2 - interned.size;
    interned.set(key, number);
    return number;
  };

  const crewHours = (
    builders: readonly number[],
    crew: number | null,
    overtime: boolean,
  ): Hours => {
    const key = `${String(crew)}|${String(overtime)}`;
    const hours = crews.get(key);
    if (hours) return hours;
    const all = builders.map((b) => own[Number(overtime)][problem.builders[b].calendar]);
    const busy = builders.reduce<Flat>(
      (sum, b) => (frozen[b].length > 0 ? union(sum, frozen[b]) : sum),
      [],
    );
    const left = (lists: readonly Flat[]): Flat => subtract(shared(problem, lists), busy);
    const made = {
      shifts: left(all.map((one) => one.shifts)),
      work: left(all.map((one) => one.work)),
    };
    crews.set(key, made);
    return made;
  };

  const spans = (
    builders: readonly number[] | null,
    fence: Fence,
    kind: 'shifts' | 'working' | 'regular',
  ): Spans => {
    const crew = builders === null ? NOBODY : crewKey(builders);
    const made = fence[kind].get(crew);
    if (made) return made;
    const all = [...fence.lists];
    if (builders !== null) {
      const hours = crewHours(builders, crew, kind !== 'regular');
      all.push(kind === 'shifts' ? hours.shifts : hours.work);
    }
    const left = indexed(problem, shared(problem, all));
    fence[kind].set(crew, left);
    return left;
  };

  const held: Hold[][] = problem.activities.map(() => []);
  for (const hold of problem.holds) held[hold.activity].push(hold);

  const grouped = new Map<string, CrewGroup[]>();
  const groups: Ground['groups'] = (mode, only, crews) => {
    // Modes that ask for the same people have the same crews.
    const key = `${mode.crew.map((d) => `${String(d.skill)}/${String(d.minLevel)}/${String(d.count)}`).join()}|${String(only)}`;
    const known = grouped.get(key);
    if (known) return known;
    const found = new Map<number, CrewGroup>();
    for (const { builders, demands: served } of crews) {
      const speed = builders.reduce(
        (sum, b, i) => sum + speedFor(problem, b, mode.crew[served[i]]),
        0,
      );
      const group = found.get(crewKey(builders));
      if (!group) found.set(crewKey(builders), { builders, fastest: speed, slowest: speed });
      else if (speed > group.fastest) group.fastest = speed;
      else if (speed < group.slowest) group.slowest = speed;
    }
    const all = [...found.values()];
    grouped.set(key, all);
    return all;
  };

  return {
    problem,
    groups,
    places: placesOf(problem),
    held,
    crewKey,
    fence: (mode, amounts) => {
      const keys: string[] = [];
      const lists: Flat[] = [];
      for (const [resource, amount] of amounts) {
        const { calendar, steps } = problem.resources[resource];
        // A hold goes on outside the resource's hours.
        if (calendar !== null && demands(mode, resource)) {
          keys.push(`hours ${String(calendar)}`);
          lists.push(hoursOf(problem.calendars[calendar], false).work);
        }
        if (steps.every(({ capacity }) => capacity >= amount)) continue;
        keys.push(`${String(amount)} of ${String(resource)}`);
        lists.push(enough(problem, resource, amount));
      }
      const key = keys.join();
      const known = fences.get(key);
      if (known) return known;
      const fence = { lists, shifts: new Map(), working: new Map(), regular: new Map() };
      fences.set(key, fence);
      return fence;
    },
    working: (builders, fence, overtime) =>
      spans(builders, fence, overtime ? 'working' : 'regular'),
    pieces: (builders, fence, relieved) => spans(builders, fence, relieved ? 'shifts' : 'working'),
  };
}
