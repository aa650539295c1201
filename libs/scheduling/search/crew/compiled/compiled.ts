import { ownersOf, type Owners } from '../../../bounds/arc.ts';
import type { Activity, LagFunctions, Problem } from '../../../model/problem.ts';
import { forwards, type Arc } from './arc.ts';
import { frozenModes } from './history.ts';
import { filmsOf, reachOf, type Film, type Reach } from './film.ts';
import { isKept } from './inverse.ts';
import { compileModes, type CompiledMode } from './mode.ts';
import { orderOf, type Order } from './order.ts';
import { placesOf } from './places.ts';
import { spansOf, type WorkTable } from './spans.ts';

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
  /** Where the air is wide: it may change what is open or where dust is. */
  readonly airy: boolean;
  /** It moves a part that carries films. */
  readonly carries: boolean;
  /** Placing it may make room for what had none: it ends a hold, covers, moves or works a barrier. */
  readonly unlocks: boolean;
  readonly choice: number;
  readonly branch: number;
}

const VARIANTS = [1, 2, 3, 4, 5];

/** The problem with everything that a decode looks up prepared; indices are the problem's. */
export interface Compiled {
  readonly problem: Problem;
  readonly horizon: number;
  readonly activities: readonly CompiledActivity[];
  readonly arcs: readonly Arc[];
  /** Branches that frozen work does not rule out, by choice. */
  readonly branches: readonly (readonly number[])[];
  readonly order: Order;
  /** The same and others, where windows overlap; see `orderOf`. */
  readonly orders: readonly Order[];
  readonly anyTime: WorkTable;
  readonly films: readonly Film[];
  /** By space, where its dust goes. */
  readonly reach: readonly (readonly Reach[])[];
  /** What is open and where dust goes depends on what is placed later: then the air is made anew each time. */
  readonly wideAir: boolean;
  /** Those that then may change it. */
  readonly airy: readonly number[];
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

const indices = <T>(list: readonly T[], of: (one: T) => boolean): number[] =>
  list.flatMap((one, i) => (of(one) ? [i] : []));

function frozenOf({ fixed }: Activity, mode: number): FrozenWork | null {
  if (fixed?.kind !== 'frozen') return null;
  const start = fixed.start ?? 0;
  return { mode, start, finish: fixed.finish ?? start, builders: fixed.builders ?? [] };
}

export function compile(problem: Problem): Compiled {
  const owners = ownersOf(problem);
  const arcs = arcsOf(problem, owners);
  const { films, plain } = filmsOf(problem);
  const modes = compileModes(
    problem,
    new Set(plain.flatMap((surfaces, a) => (surfaces.length > 0 ? [a] : []))),
  );
  const historical = frozenModes(problem, owners.lagChoice);
  const reach = reachOf(problem);
  const wideAir =
    films.length > 0 || reach.some((list) => list.some(({ barrier }) => barrier >= 0));
  const activities = problem.activities.map((activity, a): CompiledActivity => {
    const wish = activity.fixed?.kind === 'set' ? activity.fixed : null;
    const own = indices(films, (film) => film.activity === a);
    const covers = indices(films, (film) => film.coveredBy.includes(a));
    const holds = indices(problem.holds, (hold) => hold.activity === a && hold.amount > 0);
    const endsHolds = indices(
      problem.holds,
      ({ activity: holder, amount, ends }) =>
        holder !== a &&
        amount > 0 &&
        ends.some((end) => end.kind === 'activity' && end.activity === a),
    );
    const acts = modes[a].some(({ barrier }) => barrier >= 0);
    const moves = modes[a].some(({ movesTo }) => movesTo >= 0);
    return {
      index: a,
      modes: modes[a],
      release: activity.releases.reduce((latest, { at }) => Math.max(latest, at), 0),
      refit: activity.refit ?? -1,
      frozen: frozenOf(activity, historical[a]),
      setStart: wish?.start ?? -1,
      setFinish: wish?.finish ?? -1,
      surfaces: plain[a],
      films: own,
      covers,
      parts: activity.parts,
      holds,
      endsHolds,
      incoming: arcs.filter((arc) => arc.to === a && arc.from !== a),
      outgoing: arcs.filter((arc) => arc.from === a && arc.to !== a),
      own: arcs.filter((arc) => arc.to === a && arc.from === a),
      modal: arcs.some((arc) => arc.from === a && arc.fns.length > 1),
      tangled: activity.parts.length > 0 || holds.length > 0 || own.length > 0 || acts,
      consumes: modes[a].some(({ consumes }) => consumes.length > 0),
      airy:
        wideAir &&
        (acts ||
          covers.length > 0 ||
          own.length > 0 ||
          (moves && activity.parts.length > 0) ||
          modes[a].some(({ dusty, sensitive }) => dusty || sensitive)),
      carries: moves && films.some(({ part }) => part >= 0 && activity.parts.includes(part)),
      unlocks:
        endsHolds.length > 0 || covers.length > 0 || acts || (moves && activity.parts.length > 0),
      choice: owners.activityChoice[a],
      branch: owners.activityBranch[a],
    };
  });
  const everybody = spansOf([0, problem.horizon], problem.horizon);
  const places = placesOf(problem);
  const order = orderOf(problem, arcs, places);
  const windows = order.pulled.filter((pulled) => pulled.length > 0).length;
  return {
    problem,
    horizon: problem.horizon,
    activities,
    arcs,
    branches: branchesOf(problem, activities, arcs),
    order,
    orders: [
      order,
      ...(windows > 1 ? VARIANTS.map((variant) => orderOf(problem, arcs, places, variant)) : []),
    ],
    anyTime: { shifts: everybody, work: everybody },
    films,
    reach,
    overtime: modes.some((all) =>
      all.some(({ crews }) => crews?.some((option) => option.overtime) ?? false),
    ),
    wideAir,
    airy: indices(activities, ({ airy }) => airy),
  };
}
