import { ownersOf, type Owners } from '../../../bounds/arc.ts';
import type { Activity, LagFunctions, Problem } from '../../../model/problem.ts';
import { forwards, type Arc } from './arc.ts';
import { frozenModes } from './history.ts';
import { filmsOf, driftOf, type Drift, type Film } from './film.ts';
import { isKept } from './inverse.ts';
import { compileModes, type CompiledMode } from './mode.ts';
import { orderOf, type Order } from './order.ts';
import { placesOf } from './places.ts';
import { spansOf, withOvertime, type Spans } from './spans.ts';

export interface FrozenWork {
  readonly mode: number;
  readonly start: number;
  readonly finish: number;
  readonly builders: readonly number[];
}

export interface CompiledActivity {
  readonly index: number;
  readonly modes: readonly CompiledMode[];
  /** The latest of its releases. */
  readonly release: number;
  readonly refit: number;
  readonly frozen: FrozenWork | null;
  /** The foreman's start and finish, -1 where free. */
  readonly setStart: number;
  readonly setFinish: number;
  /** Surfaces that it leaves open where it is, each until this function of its finish. */
  readonly surfaces: readonly LagFunctions[];
  /** Its other surfaces, and those it covers: indices into `films`. */
  readonly films: readonly number[];
  readonly covers: readonly number[];
  readonly parts: readonly number[];
  /** Indices into the problem's holds: its own, and those that it may end. */
  readonly holds: readonly number[];
  readonly endsHolds: readonly number[];
  readonly incoming: readonly Arc[];
  readonly outgoing: readonly Arc[];
  /** Lags from itself to itself, such as pot life. */
  readonly own: readonly Arc[];
  /** An outgoing lag differs by its mode. */
  readonly modal: boolean;
  /** It has parts, holds, films or barriers of its own to be looked after. */
  readonly tangled: boolean;
  /** Some mode takes something from a stock. */
  readonly consumes: boolean;
  /** It may change what is open or where dust is. */
  readonly airy: boolean;
  /** Films on parts that it moves, its own not among them: indices into `films`. */
  readonly carried: readonly number[];
  /** Placing it may make room for what had none: it ends a hold, covers, moves or works a barrier. */
  readonly unlocks: boolean;
  readonly choice: number;
  readonly branch: number;
}

/** Placing orders tried where windows overlap. */
const VARIANTS = 6;

/** The problem with everything that a decode looks up prepared; indices are the problem's. */
export interface Compiled {
  readonly problem: Problem;
  readonly horizon: number;
  readonly activities: readonly CompiledActivity[];
  readonly arcs: readonly Arc[];
  /** Branches that frozen work does not rule out, by choice. */
  readonly branches: readonly (readonly number[])[];
  readonly order: Order;
  /** That one and, where windows overlap, others: see `orderOf`. */
  readonly orderCount: number;
  readonly orderAt: (variant: number) => Order;
  readonly films: readonly Film[];
  readonly drift: Drift;
  /** By builder, all minutes that each could ever work: shifts, breaks in them, and overtime. */
  readonly ever: readonly Spans[];
  /** Some crew may work overtime. */
  readonly overtime: boolean;
}

function arcsOf(problem: Problem, { lagChoice, lagBranch }: Owners): Arc[] {
  return problem.lags.map((lag, l) =>
    forwards({
      lag: l,
      from: lag.from,
      to: lag.to,
      fromFinish: lag.fromAnchor === 'finish',
      toFinish: lag.toAnchor === 'finish',
      open: lag.bound === 'open',
      fns: lag.fns,
      choice: lagChoice[l],
      branch: lagBranch[l],
    }),
  );
}

/** By choice, the branches that what has happened leaves. */
function branchesOf(
  problem: Problem,
  activities: readonly CompiledActivity[],
  arcs: readonly Arc[],
): number[][] {
  const breaks = (arc: Arc): boolean => {
    const from = activities[arc.from].frozen;
    const to = activities[arc.to].frozen;
    return from !== null && to !== null && !isKept(problem, arc, from.mode, from, to);
  };
  return problem.choices.map(({ branches }) => {
    const all = branches.flatMap(({ lags }, b) => (lags.some((l) => breaks(arcs[l])) ? [] : [b]));
    const history = branches.flatMap((branch, b) =>
      branch.activities.some((a) => activities[a].frozen) ? [b] : [],
    );
    if (history.length === 0) return all;
    return history.length === 1 ? all.filter((b) => b === history[0]) : [];
  });
}

/** Indices by the activities that each of a list is about. */
function byActivity<T>(
  n: number,
  list: readonly T[],
  of: (one: T) => readonly number[],
): number[][] {
  const found = Array.from({ length: n }, (): number[] => []);
  list.forEach((one, i) => {
    for (const a of new Set(of(one))) found[a].push(i);
  });
  return found;
}

function frozenOf({ fixed }: Activity, mode: number): FrozenWork | null {
  if (fixed?.kind !== 'frozen') return null;
  const start = fixed.start ?? 0;
  return { mode, start, finish: fixed.finish ?? start, builders: fixed.builders ?? [] };
}

/** The placing orders, each made when it is first asked for. */
function ordersOf(
  problem: Problem,
  arcs: readonly Arc[],
): Pick<Compiled, 'order' | 'orderCount' | 'orderAt'> {
  const places = placesOf(problem);
  const order = orderOf(problem, arcs, places);
  const windows = order.pulled.filter((pulled) => pulled.length > 0).length;
  const made: Order[] = [order];
  return {
    order,
    orderCount: windows > 1 ? VARIANTS : 1,
    orderAt: (variant) => (made[variant] ??= orderOf(problem, arcs, places, variant)),
  };
}

function everOf(problem: Problem): Spans[] {
  const byCalendar = problem.calendars.map((one) => spansOf(withOvertime(one), problem.horizon));
  return problem.builders.map(({ calendar }) => byCalendar[calendar]);
}

export function compile(problem: Problem): Compiled {
  const n = problem.activities.length;
  const owners = ownersOf(problem);
  const arcs = arcsOf(problem, owners);
  const { films, plain } = filmsOf(problem);
  const modes = compileModes(
    problem,
    new Set(plain.flatMap((surfaces, a) => (surfaces.length > 0 ? [a] : []))),
  );
  const historical = frozenModes(problem, owners.lagChoice);
  const holding = problem.holds.map(({ amount }) => amount > 0);
  const ownHolds = byActivity(n, problem.holds, ({ activity }) => [activity]);
  const endsHolds = byActivity(n, problem.holds, ({ activity, ends }) =>
    ends.flatMap((end) =>
      end.kind === 'activity' && end.activity !== activity ? [end.activity] : [],
    ),
  );
  const ownFilms = byActivity(n, films, ({ activity }) => [activity]);
  const covers = byActivity(n, films, ({ coveredBy }) => coveredBy);
  const filmsOn = byActivity(problem.parts.length, films, ({ part }) => (part < 0 ? [] : [part]));
  const arcsFrom = byActivity(n, arcs, ({ from }) => [from]);
  const arcsTo = byActivity(n, arcs, ({ to }) => [to]);
  const activities = problem.activities.map((activity, a): CompiledActivity => {
    const wish = activity.fixed?.kind === 'set' ? activity.fixed : null;
    const outgoing = arcsFrom[a].map((l) => arcs[l]);
    const incoming = arcsTo[a].map((l) => arcs[l]);
    const own = outgoing.filter(({ to }) => to === a);
    const holds = ownHolds[a].filter((h) => holding[h]);
    const ends = endsHolds[a].filter((h) => holding[h]);
    const acts = modes[a].some(({ barrier }) => barrier >= 0);
    const moves = modes[a].some(({ movesTo }) => movesTo >= 0);
    const moved = moves ? activity.parts : [];
    return {
      index: a,
      modes: modes[a],
      release: activity.releases.reduce((latest, { at }) => Math.max(latest, at), 0),
      refit: activity.refit ?? -1,
      frozen: frozenOf(activity, historical[a]),
      setStart: wish?.start ?? -1,
      setFinish: wish?.finish ?? -1,
      surfaces: plain[a],
      films: ownFilms[a],
      covers: covers[a],
      parts: activity.parts,
      holds,
      endsHolds: ends,
      incoming: incoming.filter(({ from }) => from !== a),
      outgoing: outgoing.filter(({ to }) => to !== a),
      own,
      modal: outgoing.some(({ fns }) => fns.length > 1),
      tangled: activity.parts.length > 0 || holds.length > 0 || ownFilms[a].length > 0 || acts,
      consumes: modes[a].some(({ consumes }) => consumes.length > 0),
      airy:
        acts ||
        covers[a].length > 0 ||
        ownFilms[a].length > 0 ||
        moved.length > 0 ||
        modes[a].some(({ dusty, sensitive }) => dusty || sensitive),
      carried: [...new Set(moved.flatMap((part) => filmsOn[part]))]
        .filter((film) => films[film].activity !== a)
        .sort((x, y) => x - y),
      unlocks: ends.length > 0 || covers[a].length > 0 || acts || moved.length > 0,
      choice: owners.activityChoice[a],
      branch: owners.activityBranch[a],
    };
  });
  return {
    problem,
    horizon: problem.horizon,
    activities,
    arcs,
    branches: branchesOf(problem, activities, arcs),
    ...ordersOf(problem, arcs),
    films,
    drift: driftOf(problem),
    ever: everOf(problem),
    overtime: modes.some((all) =>
      all.some(({ crews }) => crews?.some((option) => option.overtime) ?? false),
    ),
  };
}
