import type {
  Calendar,
  CapacityStep,
  Interval,
  LagFunction,
  LagTable,
  Mode,
  Problem,
  Resource,
} from '#scheduling/model/problem.ts';
import { said } from '../../oracle/data/functions.ts';

/** Minutes a step of the refits: on single minutes a general solver does not get through flattening. */
export const GRID = 15;

/** The part of spans that whole steps fill; what is left of none is dropped. */
const inward = <S extends Interval>(spans: readonly S[], grid: number): S[] =>
  spans
    .map((span) => ({
      ...span,
      start: Math.ceil(span.start / grid),
      end: Math.floor(span.end / grid),
    }))
    .filter(({ start, end }) => start < end);

/** The steps that spans touch, spans that then meet being one. */
function outward(spans: readonly Interval[], grid: number): Interval[] {
  const found: { start: number; end: number }[] = [];
  for (const span of spans) {
    const start = Math.floor(span.start / grid);
    const end = Math.ceil(span.end / grid);
    const last = found.at(-1);
    if (last !== undefined && start <= last.end) last.end = Math.max(last.end, end);
    else found.push({ start, end });
  }
  return found;
}

function calendar(one: Calendar, grid: number): Calendar {
  const shifts = inward(one.shifts, grid);
  const breaks = outward(one.breaks, grid).flatMap((span) =>
    shifts.flatMap((shift) => {
      const start = Math.max(span.start, shift.start);
      const end = Math.min(span.end, shift.end);
      return start < end ? [{ start, end }] : [];
    }),
  );
  const overtime = inward(one.overtime, grid).map((span) => ({ ...span, cost: 0 }));
  return { ...one, shifts, breaks, overtime };
}

/** In each step the least of its minutes. */
function steps(given: readonly CapacityStep[], grid: number, horizon: number): CapacityStep[] {
  const at = (minute: number): number =>
    given.findLast(({ from }) => from <= minute)?.capacity ?? 0;
  const found: CapacityStep[] = [];
  for (let from = 0; from <= horizon; from += 1) {
    const changes = given.filter(
      (step) => step.from > from * grid && step.from < (from + 1) * grid,
    );
    const capacity = Math.min(at(from * grid), ...changes.map((step) => step.capacity));
    if (found.at(-1)?.capacity !== capacity) found.push({ from, capacity });
  }
  return found;
}

/** Moments at which something may not begin or end: those steps that begin in one of the spans. */
const forbidden = (mode: Mode, grid: number): Mode['forbidden'] =>
  mode.forbidden.map((one) => ({
    ...one,
    spans: one.spans
      .map(({ start, end }) => ({ start: Math.ceil(start / grid), end: Math.ceil(end / grid) }))
      .filter(({ start, end }) => start < end),
  }));

const coarseMode = (mode: Mode, grid: number): Mode => ({
  ...mode,
  duration: Math.ceil(mode.duration / grid),
  floor: Math.ceil(mode.floor / grid),
  cleanDown: Math.ceil(mode.cleanDown / grid),
  forbidden: forbidden(mode, grid),
  cost: 0,
});

/** Lag functions at whole steps, on the safe side; new tables as they are asked for. */
class Functions {
  readonly tables: LagTable[] = [];
  private readonly known = new Map<string, number>();
  private readonly problem: Problem;
  private readonly grid: number;

  constructor(problem: Problem, grid: number) {
    this.problem = problem;
    this.grid = grid;
  }

  all(fns: readonly LagFunction[], opens: boolean): LagFunction[] {
    return fns.map((fn) => this.one(fn, opens));
  }

  private one(fn: LagFunction, opens: boolean): LagFunction {
    const { grid } = this;
    const round = opens ? Math.ceil : Math.floor;
    if (fn.kind === 'constant') return { kind: 'constant', minutes: round(fn.minutes / grid) };
    const key = `${fn.table} ${opens}`;
    const table = this.known.get(key) ?? this.table(fn.table, opens);
    this.known.set(key, table);
    return { kind: 'table', table };
  }

  private table(index: number, opens: boolean): number {
    const { problem, grid } = this;
    const horizon = Math.floor(problem.horizon / grid);
    const given = problem.tables[index];
    const values = Array.from({ length: horizon + 1 }, (_, step) => {
      const value = said(given, step * grid, opens);
      if (value > problem.horizon) return horizon + 1;
      return Math.min(horizon + 1, opens ? Math.ceil(value / grid) : Math.floor(value / grid));
    });
    const { id, source } = given;
    return (
      this.tables.push({ id: `${id} ${opens ? 'open' : 'close'}`, grid: 1, values, source }) - 1
    );
  }
}

/**
 * The problem with steps of `grid` minutes as its minutes, everything rounded to the safe side: a
 * plan for it is one for the problem but for work that ends in mid-step and keeps its people until
 * the step does. Ranks 3 and 4 and tolerances fall away, so that a general solver that knows the
 * first two solves the same. Nothing may be fixed.
 */
export function onGrid(problem: Problem, grid: number): Problem {
  if (problem.activities.some(({ fixed }) => fixed !== null))
    throw new Error('fixed work has no place on a grid');
  const horizon = Math.floor(problem.horizon / grid);
  const functions = new Functions(problem, grid);
  const down = (minute: number): number => Math.floor(minute / grid);
  const up = (minute: number): number => Math.ceil(minute / grid);
  return {
    ...problem,
    now: up(problem.now),
    horizon,
    calendars: problem.calendars.map((one) => calendar(one, grid)),
    builders: problem.builders.map((builder) => ({
      ...builder,
      // A step of work is so many minutes of it.
      abilities: builder.abilities.map((one) => ({ ...one, speed: one.speed * grid })),
      cost: 0,
    })),
    resources: problem.resources.map((one): Resource => ({
      ...one,
      steps: steps(one.steps, grid, horizon),
    })),
    spaces: problem.spaces.map((one) => ({ ...one, settling: up(one.settling) })),
    slotLists: problem.slotLists.map((list) => ({
      ...list,
      slots: inward(
        list.slots.filter(({ bookBy }) => bookBy >= problem.now),
        grid,
      ).map((slot) => ({ ...slot, cost: 0, bookBy: up(problem.now) })),
    })),
    activities: problem.activities.map((one) => ({
      ...one,
      modes: one.modes.map((mode) => coarseMode(mode, grid)),
      releases: one.releases.map((release) => ({ ...release, at: up(release.at) })),
    })),
    lags: problem.lags.map((lag) => ({
      ...lag,
      fns: functions.all(lag.fns, lag.bound === 'open'),
    })),
    surfaces: problem.surfaces.map((one) => ({ ...one, until: functions.all(one.until, true) })),
    holds: problem.holds.map((hold) => ({
      ...hold,
      ends: hold.ends.map((end) =>
        end.kind === 'lag' ? { ...end, fns: functions.all(end.fns, true) } : end,
      ),
    })),
    refits: problem.refits.map((refit) => ({
      ...refit,
      release: up(refit.release),
      due: refit.due === null ? null : down(refit.due),
      handovers: [...new Set(refit.handovers.map(down))],
    })),
    tables: functions.tables,
    published: null,
    tolerances: [0, 0, 0],
  };
}
