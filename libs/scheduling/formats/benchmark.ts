import type { Activity, Lag, Problem } from '../model/problem.ts';

/** One activity of a benchmark file. */
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

/** A benchmark file as a problem: one refit, jobs with their number in the file as id. */
export function benchmarkProblem(
  file: string,
  firstId: number,
  jobs: readonly Job[],
  links: readonly Link[],
  capacity: readonly number[],
  horizon: number,
): Problem {
  return {
    version: 1,
    origin: null,
    horizon,
    skills: [],
    calendars: [],
    builders: [],
    resources: capacity.map((amount, r) => ({
      id: `R${String(r + 1)}`,
      steps: [{ from: 0, capacity: amount }],
      source: `${file} resource ${String(r + 1)}`,
    })),
    spaces: [],
    activities: jobs.map((job, i) => activity(file, String(firstId + i), job)),
    tables: [],
    lags: links.map((link, k) => lag(file, firstId, link, k)),
    choices: [],
    surfaces: [],
    refits: [{ id: file, release: 0, due: null, weight: 1, source: file }],
    tolerances: [0, 0],
  };
}

function activity(file: string, id: string, job: Job): Activity {
  return {
    id,
    refit: 0,
    modes: [
      {
        duration: job.duration,
        work: 0,
        floor: 0,
        crew: [],
        demands: job.demand
          .map((amount, resource) => ({ resource, amount, keptWhilePaused: false }))
          .filter((demand) => demand.amount > 0),
        splittable: false,
        breaks: 'relieved',
        forbiddenStarts: [],
        space: null,
        air: 'clean',
      },
    ],
    release: 0,
    fixed: null,
    source: `${file} job ${id}`,
  };
}

function lag(file: string, firstId: number, link: Link, k: number): Lag {
  const ends = `${String(firstId + link.from)} to ${String(firstId + link.to)}`;
  return {
    id: String(k),
    from: link.from,
    fromAnchor: link.anchor,
    to: link.to,
    toAnchor: 'start',
    bound: 'open',
    fn: { kind: 'constant', minutes: link.lag },
    kind: 'sequence',
    source: `${file} arc ${ends}`,
  };
}
