import { plainMode } from '../model/plain.ts';
import type { Activity, Lag, LagTable, Mode, Problem } from '../model/problem.ts';

/** One activity of a single-mode file. */
export interface Job {
  readonly duration: number;
  /** By resource. */
  readonly demand: readonly number[];
}

/** `start(to) >= anchor(from) + lag`, the anchor being the start or the finish. */
export interface Link {
  readonly from: number;
  readonly to: number;
  readonly lag: number;
  readonly anchor: 'start' | 'finish';
}

/** What the files fill in; they have no air, parts, slots or choices. */
export type BenchmarkPart = Pick<Problem, 'activities' | 'lags' | 'horizon'> &
  Partial<Pick<Problem, 'skills' | 'calendars' | 'builders' | 'resources' | 'stocks' | 'tables'>>;

/** A benchmark file as a problem: one refit, whose finish is the makespan. */
export function benchmarkProblem(file: string, part: BenchmarkPart): Problem {
  return {
    version: 2,
    origin: null,
    now: 0,
    skills: [],
    calendars: [],
    builders: [],
    resources: [],
    stocks: [],
    spaces: [],
    barriers: [],
    parts: [],
    slotLists: [],
    tables: [],
    choices: [],
    surfaces: [],
    holds: [],
    refits: [{ id: file, release: 0, due: null, handovers: [], weight: 1, source: file }],
    published: null,
    tolerances: [0, 0, 0],
    ...part,
  };
}

/** Single-mode jobs with their number in the file as id, and constant lags. */
export const singleModeProblem = (
  file: string,
  firstId: number,
  jobs: readonly Job[],
  links: readonly Link[],
  capacity: readonly number[],
  horizon: number,
): Problem =>
  benchmarkProblem(file, {
    horizon,
    resources: capacity.map((amount, r) => resource(file, r, amount, null)),
    activities: jobs.map((job, i) =>
      activity(file, String(firstId + i), [
        plainMode({ duration: job.duration, demands: demandsOf(job.demand) }),
      ]),
    ),
    lags: links.map((link, k) => constantLag(file, firstId, link, k)),
  });

export const resource = (
  file: string,
  r: number,
  capacity: number,
  calendar: number | null,
): Problem['resources'][number] => ({
  id: `R${String(r + 1)}`,
  steps: [{ from: 0, capacity }],
  calendar,
  source: `${file} resource ${String(r + 1)}`,
});

/** Demands by resource; `kept` are the resources that paused work goes on using. */
export const demandsOf = (
  amounts: readonly number[],
  kept: (resource: number) => boolean = () => false,
): Mode['demands'] =>
  amounts
    .map((amount, r) => ({ resource: r, amount, keptWhilePaused: kept(r) }))
    .filter(({ amount }) => amount > 0);

export const activity = (
  file: string,
  id: string,
  modes: readonly Mode[],
  fixed: Activity['fixed'] = null,
): Activity => ({
  id,
  refit: 0,
  modes,
  releases: [],
  parts: [],
  fixed,
  source: `${file} job ${id}`,
});

export const constantLag = (file: string, firstId: number, link: Link, k: number): Lag => ({
  id: String(k),
  from: link.from,
  fromAnchor: link.anchor,
  to: link.to,
  toAnchor: 'start',
  bound: 'open',
  fns: [{ kind: 'constant', minutes: link.lag }],
  kind: 'sequence',
  source: `${file} arc ${String(firstId + link.from)} to ${String(firstId + link.to)}`,
});

/** A function of every period, given by its values at 0..horizon. */
export const everyPeriod = (id: string, values: readonly number[], source: string): LagTable => ({
  id,
  grid: 1,
  values,
  source,
});
