import { DomainError } from '#kernel/error.ts';
import type { Choice, Lag, OpenSurface, Problem, Refit } from '#scheduling/model/problem.ts';
import type { Task, Workload } from '../workload/workload.ts';
import { emptyFaults } from '../yard/check/check.ts';
import type { Yard } from '../yard/yard.ts';
import { activityOf, type Site } from './activities.ts';
import { standingOf, type Standing } from './choices.ts';
import { firstMinute, temperatures } from './climate.ts';
import { crewOf } from './crew.ts';
import { crewFaults } from './crew-faults.ts';
import { filmsOf, reachedOrNever } from './films.ts';
import { begunOf, type Begun } from './frozen.ts';
import { horizonFaults } from './horizon-faults.ts';
import { lagsOf, type LagSite } from './lags.ts';
import type { PlanMap } from './map.ts';
import { placesOf } from './places.ts';
import { excuseBegun } from './reality.ts';
import { frameOf, type Frame } from './time.ts';
import { whereabouts } from './whereabouts.ts';
import { windowFaults } from './window-faults.ts';

export interface CompileInput {
  readonly yard: Yard;
  readonly workload: Workload;
  /** Instant of minute 0; the yard's `planFrom` if left out. */
  readonly from?: string | undefined;
  /** Nothing that waits may start before this instant; minute 0 if left out or earlier. */
  readonly now?: string | undefined;
}

export interface Compiled {
  readonly problem: Problem;
  readonly map: PlanMap;
}

/** The most that rank 2 may give up for later ranks: half a working day, weighted minutes. */
const HALF_A_DAY = 240;

function refitsOf(yard: Yard, frame: Frame): Refit[] {
  return yard.boats
    .flatMap((boat) => boat.refits)
    .map(({ id, release, promised, weight }) => ({
      id,
      release: frame.minuteOf(release),
      due: promised === null ? null : frame.minuteOf(promised),
      weight,
      source: `refit:${id}`,
    }));
}

/** The film of each wet task, open to dust until it is dust-safe. */
function surfacesOf(
  tasks: readonly Task[],
  begun: ReadonlyMap<string, Begun>,
  site: Site,
): OpenSurface[] {
  const { films, frame } = site;
  return tasks.flatMap((task, activity): OpenSurface[] => {
    if (task.material === null) return [];
    const source = `task:${task.id}`;
    const past = begun.get(task.id);
    if (past === undefined) {
      return [
        {
          activity,
          until: {
            kind: 'table',
            table: films.table(task.material, 'dust-safe', 'open', [task.space]),
          },
          source,
        },
      ];
    }
    const clock = films.clock(task.material, 'dust-safe', 'open', [task.space]);
    const minutes = reachedOrNever(clock, past.finish, frame.horizon) - past.placedFinish;
    return minutes <= 0 ? [] : [{ activity, until: { kind: 'constant', minutes }, source }];
  });
}

function choicesOf(
  standing: Standing,
  index: ReadonlyMap<string, number>,
  lags: readonly Lag[],
): Choice[] {
  return standing.open.map((choice) => ({
    id: choice.id,
    branches: choice.branches.map((branch) => {
      const held = new Set(branch.links.map((link) => `link:${link}`));
      return {
        id: branch.id,
        activities: branch.tasks.flatMap((task) => index.get(task) ?? []),
        lags: lags.flatMap((lag, k) => (held.has(lag.source) ? [k] : [])),
      };
    }),
    source: `choice:${choice.id}`,
  }));
}

/**
 * A yard and its work as a scheduling problem, and which row is which. The same input
 * gives the same problem. Throws a DomainError with faults where no plan can exist for a
 * reason that can be read off at once: yard.empty, yard.horizon, yard.skill, yard.crew,
 * yard.shift, yard.window. The yard must have passed `readYard` or `yardFaults`.
 */
export function compile({ yard, workload, from, now }: CompileInput): Compiled {
  refuse('There is nothing to plan', emptyFaults(yard));
  const frame = frameOf(yard, from, now);
  const crew = crewOf(yard, frame);
  const places = placesOf(yard);
  const films = filmsOf(
    yard,
    temperatures(yard, frame, firstMinute(workload, frame)),
    frame.horizon,
  );
  const site: Site = { crew, places, films, frame };

  const standing = standingOf(workload);
  const tasks = workload.tasks.filter((task) => !standing.dropped.has(task.id));
  const index = new Map(tasks.map(({ id }, k) => [id, k]));
  const begun = new Map(
    tasks.flatMap((task): [string, Begun][] => {
      const time = begunOf(task, crew, frame);
      return time === null ? [] : [[task.id, time]];
    }),
  );
  const refits = refitsOf(yard, frame);
  const refitIndex = new Map(refits.map(({ id }, k) => [id, k]));
  refuse('The work cannot be planned', horizonFaults(yard, tasks, begun, frame));
  refuse('The work cannot be planned', crewFaults(yard, tasks, begun, site));

  const activities = tasks.map((task) => {
    const refit = refitIndex.get(task.refitId) ?? -1;
    return activityOf(task, begun.get(task.id) ?? null, refit, refits[refit]?.release ?? 0, site);
  });
  const lagSite: LagSite = {
    films,
    horizon: frame.horizon,
    index,
    task: (id) => tasks[index.get(id) ?? -1],
    begun: (id) => begun.get(id) ?? null,
    whereabouts: whereabouts({ ...workload, tasks }),
  };
  const lags = workload.links
    .filter(({ id }) => !standing.droppedLinks.has(id))
    .flatMap((link) => lagsOf(link, lagSite));
  const surfaces = surfacesOf(tasks, begun, site);
  const draft: Problem = {
    version: 1,
    origin: frame.origin,
    horizon: frame.horizon,
    skills: crew.skills,
    calendars: crew.calendars,
    builders: crew.builders,
    resources: places.resources,
    spaces: places.spaces,
    activities,
    tables: films.tables,
    lags,
    choices: choicesOf(standing, index, lags),
    surfaces,
    refits,
    tolerances: [0, HALF_A_DAY],
  };
  const problem: Problem = { ...draft, activities: excuseBegun(draft) };
  refuse('The work cannot be planned', windowFaults(yard, workload, problem, site));
  return { problem, map: mapOf(yard, frame, problem, standing) };
}

function mapOf(yard: Yard, frame: Frame, problem: Problem, standing: Standing): PlanMap {
  return {
    version: 1,
    yardId: yard.id,
    timeZone: yard.timeZone,
    origin: frame.origin,
    horizon: frame.horizon,
    tasks: problem.activities.map(({ id }) => id),
    people: problem.builders.map(({ id }) => id),
    spaces: problem.spaces.map(({ id }) => id),
    refits: problem.refits.map(({ id }) => id),
    skills: problem.skills,
    resources: [
      ...yard.spaces.map(({ id }) => ({ kind: 'room' as const, id })),
      ...yard.tools.map(({ id }) => ({ kind: 'tool' as const, id })),
    ],
    lags: problem.lags.map(({ source }) => source.slice('link:'.length)),
    choices: problem.choices.map(({ id, branches }) => ({
      id,
      branches: branches.map((branch) => branch.id),
    })),
    decided: standing.decided.map(({ choice, branch }) => ({
      id: choice.id,
      branch: choice.branches[branch].id,
    })),
    dropped: [...standing.dropped],
  };
}

function refuse(what: string, faults: ReturnType<typeof emptyFaults>): void {
  if (faults.length === 0) return;
  const rest = faults.length > 1 ? ` (and ${String(faults.length - 1)} more)` : '';
  throw new DomainError(faults[0].code, `${what}: ${faults[0].message}${rest}`, {
    cure: faults[0].cure,
    faults,
  });
}
