import type { Activity, Lag, Problem } from '../../model/problem.ts';

/** A lag as `start(to) >= start(from) + weight`. */
export interface StartLag {
  readonly from: number;
  readonly to: number;
  readonly weight: number;
}

/**
 * A pure problem in arrays. Time is counted in steps of `unit` minutes: the greatest common
 * divisor of everything, since a plan can always be rounded down to its multiples.
 */
export interface PureModel {
  readonly count: number;
  readonly unit: number;
  readonly horizon: number;
  readonly duration: Int32Array;
  readonly release: Int32Array;
  /** 1 where the activity counts for the refit's finish. */
  readonly counts: Uint8Array;
  readonly lags: readonly StartLag[];
  readonly capacity: Int32Array;
  /** By resource, by activity. */
  readonly demand: readonly Int32Array[];
  readonly weight: number;
}

/**
 * Whether the exact search takes the problem: RCPSP with constant minimum and maximum lags, one
 * refit, no due date, and nothing else that the model knows.
 */
export function isPure(problem: Problem): boolean {
  return (
    problem.refits.length === 1 &&
    problem.refits[0].due === null &&
    problem.refits[0].weight > 0 &&
    problem.choices.length === 0 &&
    problem.surfaces.length === 0 &&
    problem.holds.every((hold) => hold.amount === 0) &&
    problem.published === null &&
    problem.lags.every(({ fns }) => fns.length === 1 && fns[0].kind === 'constant') &&
    problem.resources.every(({ steps, calendar }) => steps.length === 1 && calendar === null) &&
    problem.activities.every(isPlain)
  );
}

function isPlain(activity: Activity): boolean {
  if (activity.modes.length !== 1 || activity.fixed !== null || activity.parts.length > 0)
    return false;
  const [mode] = activity.modes;
  return (
    mode.crew.length === 0 &&
    !mode.splittable &&
    mode.consumes.length === 0 &&
    mode.forbidden.length === 0 &&
    mode.air === 'clean' &&
    mode.movesTo === null &&
    mode.barrier === null &&
    mode.slots === null &&
    mode.cost === 0 &&
    mode.cleanDown === 0
  );
}

/** Arrays of a problem for which `isPure` holds. */
export function toPureModel(problem: Problem): PureModel {
  const { activities, resources } = problem;
  const duration = activities.map((a) => a.modes[0].duration);
  const release = activities.map(({ releases }) =>
    releases.reduce((latest, { at }) => Math.max(latest, at), 0),
  );
  const lags = problem.lags.map((lag) => startLag(lag, duration));
  const unit = commonDivisor([...duration, ...release, ...lags.map((l) => l.weight)]);
  const demand = resources.map((_, r) =>
    Int32Array.from(activities, (a) =>
      a.modes[0].demands.reduce((sum, d) => (d.resource === r ? sum + d.amount : sum), 0),
    ),
  );
  return {
    count: activities.length,
    unit,
    horizon: Math.floor(problem.horizon / unit),
    duration: Int32Array.from(duration, (d) => d / unit),
    release: Int32Array.from(release, (r) => r / unit),
    counts: Uint8Array.from(activities, (a) => (a.refit === null ? 0 : 1)),
    lags: lags.map((l) => ({ ...l, weight: l.weight / unit })),
    capacity: Int32Array.from(resources, (r) => r.steps[0].capacity),
    demand,
    weight: problem.refits[0].weight,
  };
}

function startLag(lag: Lag, duration: readonly number[]): StartLag {
  const [fn] = lag.fns;
  if (fn.kind !== 'constant') throw new Error(`lag ${lag.id} is not constant`);
  const before = lag.fromAnchor === 'finish' ? duration[lag.from] : 0;
  const after = lag.toAnchor === 'finish' ? duration[lag.to] : 0;
  const weight = before + fn.minutes - after;
  return lag.bound === 'open'
    ? { from: lag.from, to: lag.to, weight }
    : { from: lag.to, to: lag.from, weight: -weight };
}

/** The greatest common divisor of the absolute values; 1 if all are zero. */
function commonDivisor(values: readonly number[]): number {
  let divisor = 0;
  for (const value of values) {
    let rest = Math.abs(value);
    while (rest > 0) [divisor, rest] = [rest, divisor % rest];
  }
  return divisor === 0 ? 1 : divisor;
}

/** The latest finish of what counts for the refit. */
export function makespanOf(model: PureModel, starts: Int32Array): number {
  let makespan = 0;
  for (let i = 0; i < model.count; i++) {
    if (model.counts[i] === 1) makespan = Math.max(makespan, starts[i] + model.duration[i]);
  }
  return makespan;
}

/** Whether these starts keep the horizon, releases, lags and capacities. */
export function isFeasible(model: PureModel, starts: Int32Array): boolean {
  const { count, duration, release, horizon } = model;
  for (let i = 0; i < count; i++) {
    if (starts[i] < release[i] || starts[i] + duration[i] > horizon) return false;
  }
  if (model.lags.some((l) => starts[l.to] < starts[l.from] + l.weight)) return false;
  return model.demand.every((demand, r) => {
    // Use is greatest at some start.
    for (let i = 0; i < count; i++) {
      if (duration[i] === 0) continue;
      let use = 0;
      for (let k = 0; k < count; k++) {
        if (starts[k] <= starts[i] && starts[i] < starts[k] + duration[k]) use += demand[k];
      }
      if (use > model.capacity[r]) return false;
    }
    return true;
  });
}
