import type { Anchor, Interval, LagFunction, Mode, Problem } from '../../model/problem.ts';
import { forwards, type Arc } from './arc.ts';
import { builderScarcity, crewList, speedFor, tableCache, type CrewOption } from './crews.ts';
import { anchorBound } from './inverse.ts';
import { orderOf, type Order } from './order.ts';
import { spansOf, type Spans, type WorkTable } from './spans.ts';

export interface ResourceUse {
  readonly resource: number;
  readonly amount: number;
  /** Used from start to finish, through pauses. */
  readonly whole: boolean;
}

export interface CompiledMode {
  /** Null where nobody is needed: then `minutes` hold and any time will do. */
  readonly crews: readonly CrewOption[] | null;
  readonly complete: boolean;
  readonly minutes: number;
  /** The fewest minutes that any crew of the whole yard could take. */
  readonly least: number;
  /** It has people and may pause. */
  readonly pauses: boolean;
  readonly relieved: boolean;
  readonly forbidden: Spans | null;
  readonly uses: readonly ResourceUse[];
  readonly space: number;
  readonly dusty: boolean;
  /** No dust from start to finish (and longer where there is a surface). */
  readonly sensitive: boolean;
}

export interface FrozenWork {
  readonly mode: number;
  readonly start: number;
  readonly finish: number;
  readonly builders: readonly number[];
}

export interface CompiledActivity {
  readonly modes: readonly CompiledMode[];
  readonly release: number;
  readonly refit: number;
  readonly frozen: FrozenWork | null;
  /** The foreman's start, -1 where free. */
  readonly setStart: number;
  /** Surfaces that it leaves open, each until this function of its finish. */
  readonly surfaces: readonly LagFunction[];
  readonly incoming: readonly Arc[];
  readonly outgoing: readonly Arc[];
  /** Lags from itself to itself, such as pot life. */
  readonly own: readonly Arc[];
  readonly choice: number;
  readonly branch: number;
}

/** The problem with everything that a decode looks up prepared; indices are the problem's. */
export interface Compiled {
  readonly problem: Problem;
  readonly horizon: number;
  readonly activities: readonly CompiledActivity[];
  readonly arcs: readonly Arc[];
  /** Branches that frozen work does not rule out, by choice. */
  readonly branches: readonly (readonly number[])[];
  readonly order: Order;
  readonly anyTime: WorkTable;
}

const flat = (list: readonly Interval[]): number[] => list.flatMap((s) => [s.start, s.end]);

/** The mode that frozen work was done in: the first whose crew is as large as the one named. */
function frozenMode(problem: Problem, modes: readonly Mode[], builders: readonly number[]): number {
  const heads = (mode: Mode): number => mode.crew.reduce((sum, d) => sum + d.count, 0);
  const able = (mode: Mode): boolean =>
    mode.crew.every((d) => builders.filter((b) => speedFor(problem, b, d) > 0).length >= d.count);
  const fits = modes.findIndex((mode) => heads(mode) === builders.length && able(mode));
  return fits >= 0
    ? fits
    : Math.max(
        0,
        modes.findIndex((mode) => heads(mode) === builders.length),
      );
}

function compileModes(problem: Problem): CompiledMode[][] {
  const scarcity = builderScarcity(problem);
  const tablesFor = tableCache(problem);
  const lists = new Map<string, ReturnType<typeof crewList>>();
  const sensitiveWork = new Set(problem.surfaces.map((s) => s.activity));
  return problem.activities.map((activity, a) =>
    activity.modes.map((mode) => {
      const only = activity.fixed?.kind === 'set' ? activity.fixed.builders : null;
      const manned = mode.crew.length > 0;
      const key = JSON.stringify([mode.crew, mode.work, mode.floor, only]);
      let list = lists.get(key);
      if (manned && activity.fixed?.kind !== 'frozen' && !list) {
        list = crewList(problem, mode, only, scarcity, tablesFor);
        lists.set(key, list);
      }
      const options = manned ? (list?.options ?? []) : null;
      return {
        crews: options,
        complete: list?.complete ?? true,
        minutes: mode.duration,
        least: manned ? leastMinutes(problem, mode) : mode.duration,
        pauses: manned && mode.splittable,
        relieved: mode.breaks === 'relieved',
        forbidden:
          mode.forbiddenStarts.length > 0
            ? spansOf(flat(mode.forbiddenStarts), problem.horizon)
            : null,
        uses: mode.demands.map((d) => ({
          resource: d.resource,
          amount: d.amount,
          whole: d.keptWhilePaused || !(manned && mode.splittable),
        })),
        space: mode.space ?? -1,
        dusty: mode.air === 'dusty' && mode.space !== null,
        sensitive: mode.space !== null && (mode.air === 'wet' || sensitiveWork.has(a)),
      };
    }),
  );
}

function leastMinutes(problem: Problem, mode: Mode): number {
  let speed = 0;
  for (const demand of mode.crew) {
    const speeds = problem.builders
      .map((_, b) => speedFor(problem, b, demand))
      .sort((x, y) => y - x);
    for (let i = 0; i < demand.count; i += 1) speed += speeds[i] ?? 0;
  }
  return speed > 0 ? Math.max(mode.floor, Math.ceil(mode.work / speed)) : mode.floor;
}

/** Whether a lag is broken by what has happened already. */
function historyBreaks(
  problem: Problem,
  activities: readonly CompiledActivity[],
  arc: Arc,
): boolean {
  const from = activities[arc.from].frozen;
  const to = activities[arc.to].frozen;
  if (!from || !to) return false;
  const bound = anchorBound(problem, arc, arc.fromFinish ? from.finish : from.start);
  const at = arc.toFinish ? to.finish : to.start;
  return arc.open ? at < bound : at > bound;
}

export function compile(problem: Problem): Compiled {
  const choiceOf = problem.activities.map(() => -1);
  const branchOf = problem.activities.map(() => -1);
  const lagChoice = problem.lags.map(() => -1);
  const lagBranch = problem.lags.map(() => -1);
  problem.choices.forEach((choice, c) => {
    choice.branches.forEach((branch, b) => {
      for (const a of branch.activities) {
        choiceOf[a] = c;
        branchOf[a] = b;
      }
      for (const l of branch.lags) {
        lagChoice[l] = c;
        lagBranch[l] = b;
      }
    });
  });
  const finish = (anchor: Anchor): boolean => anchor === 'finish';
  const arcs = problem.lags.map((lag, l): Arc =>
    forwards({
      lag: l,
      from: lag.from,
      to: lag.to,
      fromFinish: finish(lag.fromAnchor),
      toFinish: finish(lag.toAnchor),
      open: lag.bound === 'open',
      fn: lag.fn,
      choice: lagChoice[l],
      branch: lagBranch[l],
    }),
  );
  const modes = compileModes(problem);
  const activities = problem.activities.map((activity, a): CompiledActivity => {
    const { fixed } = activity;
    const frozen = fixed?.kind === 'frozen' ? fixed : null;
    const start = frozen?.start ?? 0;
    const builders = frozen?.builders ?? [];
    return {
      modes: modes[a],
      release: Math.max(0, activity.release),
      refit: activity.refit ?? -1,
      frozen: frozen
        ? {
            mode: frozenMode(problem, activity.modes, builders),
            start,
            finish: frozen.finish ?? start,
            builders,
          }
        : null,
      setStart: fixed?.kind === 'set' ? (fixed.start ?? -1) : -1,
      surfaces: problem.surfaces.filter((s) => s.activity === a).map((s) => s.until),
      incoming: arcs.filter((arc) => arc.to === a && arc.from !== a),
      outgoing: arcs.filter((arc) => arc.from === a && arc.to !== a),
      own: arcs.filter((arc) => arc.to === a && arc.from === a),
      choice: choiceOf[a],
      branch: branchOf[a],
    };
  });
  const branches = problem.choices.map((choice) => {
    const all = choice.branches
      .map((_, b) => b)
      .filter((b) =>
        choice.branches[b].lags.every((l) => !historyBreaks(problem, activities, arcs[l])),
      );
    const history = choice.branches.flatMap((branch, b) =>
      branch.activities.some((a) => activities[a].frozen) ? [b] : [],
    );
    if (history.length === 0) return all;
    return history.length === 1 ? all.filter((b) => b === history[0]) : [];
  });
  const everybody = spansOf([0, problem.horizon], problem.horizon);
  return {
    problem,
    horizon: problem.horizon,
    activities,
    arcs,
    branches,
    order: orderOf(problem, arcs),
    anyTime: { shifts: everybody, work: everybody },
  };
}
