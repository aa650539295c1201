import { DomainError } from '#kernel/error.ts';
import type { Choice, Lag, Problem, Refit } from '#scheduling/model/problem.ts';
import { inTheirSpaces } from '../workload/in-space.ts';
import { restOf } from '../workload/standing.ts';
import type { Task, Workload } from '../workload/workload.ts';
import { emptyFaults } from '../yard/check/check.ts';
import type { Yard } from '../yard/yard.ts';
import { activityOf, type Site } from './work/activities.ts';
import { batchFaults } from './faults/batch.ts';
import { batchLags } from './work/one-batch.ts';
import { standingOf, type Standing } from './work/choices.ts';
import { crewOf } from './site/crew.ts';
import { crewFaults } from './faults/crew.ts';
import { filmsOf } from './films/films.ts';
import { begunOf, type Begun } from './work/frozen.ts';
import { holdsOf } from './work/holds.ts';
import { horizonFaults } from './faults/horizon.ts';
import { lagsOf, type LagSite } from './work/lags.ts';
import type { PlanMap } from './trace/map.ts';
import { missingFaults } from './faults/missing.ts';
import { PER_CENT } from './frame/money.ts';
import { releases, slotsOf, stocksOf, type Slots } from './site/outside.ts';
import { barriersAsLeft, partsOf, takenTo } from './site/parts.ts';
import { placeFaults } from './faults/place.ts';
import { placesOf } from './site/places.ts';
import { publishedOf, type PublishedPlan } from './work/published.ts';
import { excuseBegun } from './work/reality.ts';
import { refusedFaults } from './faults/refused.ts';
import { surfacesOf } from './work/surfaces.ts';
import { frameOf, type Frame } from './frame/time.ts';
import { rowsIn } from './trace/trace.ts';
import { whereabouts } from './films/whereabouts.ts';
import { windowFaults } from './faults/window.ts';

export interface CompileInput {
  readonly yard: Yard;
  readonly workload: Workload;
  /** Instant of minute 0; the yard's `planFrom` if left out. */
  readonly from?: string | undefined;
  /** Nothing that waits may start before this instant; minute 0 if left out or earlier. */
  readonly now?: string | undefined;
  /** What people work to, and should keep where that costs no more than the tolerances. */
  readonly published?: PublishedPlan | undefined;
}

export interface Compiled {
  readonly problem: Problem;
  readonly map: PlanMap;
}

const LINK = 'link:';

/** The most that rank 2 may give up for later ranks: half a working day, weighted minutes. */
const HALF_A_DAY = 240;

function refitsOf(yard: Yard, frame: Frame): Refit[] {
  return yard.boats
    .flatMap((boat) => boat.refits)
    .map(({ id, release, promised, handovers, weight }) => ({
      id,
      release: frame.minuteOf(release),
      due: promised === null ? null : frame.minuteOf(promised),
      handovers: handovers
        .map((moment) => frame.minuteOf(moment))
        .filter((minute) => minute >= 0 && minute <= frame.horizon),
      weight,
      source: `refit:${id}`,
    }));
}

const indexOf = (ids: readonly { readonly id: string }[]): Map<string, number> =>
  new Map(ids.map(({ id }, k) => [id, k]));

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

interface Ground {
  readonly yard: Yard;
  readonly workload: Workload;
  readonly frame: Frame;
  readonly standing: Standing;
  readonly tasks: readonly Task[];
  readonly index: ReadonlyMap<string, number>;
  readonly begun: ReadonlyMap<string, Begun>;
  readonly slots: Slots;
  readonly site: Site;
}

function groundOf({ yard, workload: asMade, from, now }: CompileInput): Ground {
  const workload = inTheirSpaces(yard, asMade);
  const frame = frameOf(yard, from, now);
  const crew = crewOf(yard, frame);
  const places = placesOf(yard, frame, crew.calendars.length);
  const films = filmsOf(yard, workload, frame);
  const slots = slotsOf(yard, frame);

  const standing = standingOf(workload);
  const tasks = workload.tasks.filter((task) => !standing.dropped.has(task.id)).map(restOf);
  const begun = new Map(
    tasks.flatMap((task): [string, Begun][] => {
      const time = begunOf(task, crew, frame);
      return time === null ? [] : [[task.id, time]];
    }),
  );
  const parts = yard.boats.flatMap(({ refits }) => refits.flatMap((refit) => refit.parts));
  const site: Site = {
    crew,
    places,
    films,
    frame,
    whereabouts: whereabouts({ ...workload, tasks }, films),
    stockIndex: indexOf(yard.stocks),
    slotIndex: indexOf(yard.slotLists),
    partIndex: indexOf(parts),
    moved: takenTo(tasks),
    releases: releases(yard, frame),
  };
  return { yard, workload, frame, standing, tasks, index: indexOf(tasks), begun, slots, site };
}

/** What follows from films, links and holds. */
function filmsAndLinks({ yard, workload, standing, tasks, index, begun, frame, site }: Ground) {
  const lagSite: LagSite = {
    films: site.films,
    horizon: frame.horizon,
    index,
    task: (id) => tasks[index.get(id) ?? -1],
    begun: (id) => begun.get(id) ?? null,
    whereabouts: site.whereabouts,
  };
  return {
    lags: [
      ...workload.links
        .filter(({ id }) => !standing.droppedLinks.has(id))
        .flatMap((link) => lagsOf(link, lagSite)),
      ...batchLags(yard, tasks, lagSite),
    ],
    surfaces: surfacesOf(tasks, lagSite),
    holds: holdsOf(tasks, site.places, lagSite),
  };
}

function problemOf(ground: Ground, published: PublishedPlan | undefined): Problem {
  const { yard, frame, standing, tasks, index, begun, slots, site } = ground;
  const { crew, places, films } = site;
  const refits = refitsOf(yard, frame);
  const refitIndex = indexOf(refits);
  const activities = tasks.map((task) =>
    activityOf(task, begun.get(task.id) ?? null, refitIndex.get(task.refitId) ?? -1, site),
  );
  const { lags, surfaces, holds } = filmsAndLinks(ground);
  const draft: Problem = {
    version: 2,
    origin: frame.origin,
    now: Math.min(frame.now, frame.horizon),
    horizon: frame.horizon,
    skills: crew.skills,
    calendars: [...crew.calendars, ...places.calendars],
    builders: crew.builders,
    resources: places.resources,
    stocks: stocksOf(yard),
    spaces: places.spaces,
    barriers: barriersAsLeft(places.barriers, tasks),
    parts: partsOf(yard, places, site.moved),
    slotLists: slots.lists,
    activities,
    tables: films.tables,
    lags,
    choices: choicesOf(standing, index, lags),
    surfaces,
    holds,
    refits,
    published: published === undefined ? null : publishedOf(published, index, tasks, crew, frame),
    tolerances: [0, HALF_A_DAY, yard.moneyTolerance * PER_CENT],
  };
  return { ...draft, ...excuseBegun(draft) };
}

/**
 * A yard and its work as a scheduling problem, and which row is which. The same input
 * gives the same problem. Throws a DomainError with faults where no plan can exist for a
 * reason that can be read off at once: yard.empty, yard.horizon, yard.skill, yard.crew,
 * yard.shift, yard.place, yard.window, cure.missing, cure.batch. The yard must have passed
 * `readYard` or `yardFaults`.
 */
export function compile(input: CompileInput): Compiled {
  const { yard, published } = input;
  refuse('There is nothing to plan', emptyFaults(yard));
  const ground = groundOf(input);
  const { workload, frame, standing, tasks, begun, site } = ground;
  refuse('The work cannot be planned', horizonFaults(yard, tasks, begun, frame));
  refuse('The work cannot be planned', crewFaults(yard, tasks, begun, site));
  refuse('The work cannot be planned', placeFaults(yard, { ...workload, tasks }, begun));
  const left = { tasks, links: workload.links.filter(({ id }) => !standing.droppedLinks.has(id)) };
  refuse('The work cannot be planned', missingFaults(yard, left, begun, site.films));
  refuse('The work cannot be planned', batchFaults(yard, tasks, begun, site));
  const problem = problemOf(ground, published);
  refuse('The work cannot be planned', [
    ...windowFaults(yard, workload, problem, site),
    ...refusedFaults(yard, workload, problem, site.films),
  ]);
  return { problem, map: mapOf(ground, problem) };
}

function mapOf({ yard, workload, frame, standing, slots }: Ground, problem: Problem): PlanMap {
  return {
    version: 2,
    yardId: yard.id,
    timeZone: yard.timeZone,
    currency: yard.currency,
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
    parts: problem.parts.map(({ id }) => id),
    stocks: problem.stocks.map(({ id }) => id),
    barriers: problem.barriers.map(({ id }) => id),
    slotLists: problem.slotLists.map(({ id }, k) => ({ id, slots: slots.places[k] })),
    lags: problem.lags.map(({ source }) =>
      source.startsWith(LINK) ? source.slice(LINK.length) : '',
    ),
    choices: problem.choices.map(({ id, branches }) => ({
      id,
      branches: branches.map((branch) => branch.id),
    })),
    decided: standing.decided.map(({ choice, branch }) => ({
      id: choice.id,
      branch: choice.branches[branch].id,
    })),
    dropped: [...standing.dropped],
    rows: rowsIn(problem, yard, workload),
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
