import { forbiddenStarts } from '#cure/windows/forbidden.ts';
import type {
  Activity,
  FixedWork,
  Interval,
  Mode,
  ResourceDemand,
} from '#scheduling/model/problem.ts';
import type { Task } from '../workload/workload.ts';
import type { Crew } from './crew.ts';
import type { Films } from './films.ts';
import type { Begun } from './frozen.ts';
import type { Places } from './places.ts';
import type { Frame } from './time.ts';

/** Work units of one builder-minute at the nominal rate. */
const NOMINAL = 100;

export interface Site {
  readonly crew: Crew;
  readonly places: Places;
  readonly films: Films;
  readonly frame: Frame;
}

/** Minutes that so many hands need: the quickest who can, or the slowest. */
export function minutesWith(
  task: Task,
  heads: number,
  crew: Crew,
  who: 'quickest' | 'slowest',
): number {
  const speeds = crew
    .able(task.skill, task.minLevel)
    .map((builder) => crew.speed(builder, task.skill))
    .sort((a, b) => (who === 'quickest' ? b - a : a - b))
    .slice(0, heads);
  const sum = speeds.reduce((total, speed) => total + speed, 0);
  return sum > 0
    ? Math.max(task.floorMinutes, Math.ceil((task.workMinutes * NOMINAL) / sum))
    : Infinity;
}

/** Head-counts that the task, the people and the room allow. */
export function headCounts(task: Task, site: Site): number[] {
  const able = site.crew.able(task.skill, task.minLevel).length;
  const room = site.places.roomOf.get(task.space);
  const places = room === undefined ? Infinity : site.places.resources[room].steps[0].capacity;
  const [low, high] =
    task.crew.length > 0 ? [task.crew.length, task.crew.length] : [task.crewMin, task.crewMax];
  const most = Math.min(high, able, places);
  return Array.from({ length: Math.max(0, most - low + 1) }, (_, k) => low + k);
}

function demandsOf(task: Task, heads: number, places: Places): ResourceDemand[] {
  const room = places.roomOf.get(task.space);
  const tools = task.tools.flatMap(({ tool, count }) => {
    const resource = places.toolOf.get(tool);
    return resource === undefined ? [] : [{ resource, amount: count, keptWhilePaused: false }];
  });
  return [
    ...(room === undefined ? [] : [{ resource: room, amount: heads, keptWhilePaused: false }]),
    ...tools,
  ];
}

/** Starts that the film's material forbids, were the slowest crew to lay it. */
function forbiddenOf(task: Task, heads: number, site: Site): Interval[] {
  if (task.material === null) return [];
  const material = site.films.material(task.material);
  const safe = material.milestones['tack-free'] === undefined ? 'dust-safe' : 'tack-free';
  const minutes = minutesWith(task, heads, site.crew, 'slowest');
  const { now, horizon } = site.frame;
  return forbiddenStarts(material, site.films.series(task.space), safe, minutes, horizon)
    .filter(({ end }) => end > now)
    .map(({ start, end }) => ({ start: Math.max(0, start), end }));
}

function modeOf(task: Task, heads: number, site: Site): Mode {
  return {
    duration: 0,
    work: task.workMinutes * NOMINAL,
    floor: task.floorMinutes,
    crew: [
      { skill: site.crew.skillIndex.get(task.skill) ?? -1, minLevel: task.minLevel, count: heads },
    ],
    demands: demandsOf(task, heads, site.places),
    splittable: task.splittable,
    breaks: task.breaks,
    forbiddenStarts: forbiddenOf(task, heads, site),
    space: site.places.spaceIndex.get(task.space) ?? null,
    air: task.air,
  };
}

/** Work that has begun: one mode as it was, demands only while it goes on. */
function begunMode(task: Task, begun: Begun, site: Site): Mode {
  const { builders } = begun;
  return {
    duration: begun.placedFinish - begun.placedStart,
    work: task.workMinutes * NOMINAL,
    floor: 0,
    crew:
      builders.length === 0
        ? []
        : [
            {
              skill: site.crew.skillIndex.get(task.skill) ?? 0,
              minLevel: task.minLevel,
              count: builders.length,
            },
          ],
    demands: task.state === 'working' ? demandsOf(task, builders.length, site.places) : [],
    splittable: false,
    breaks: 'relieved',
    forbiddenStarts: [],
    space: site.places.spaceIndex.get(task.space) ?? null,
    air: task.air,
  };
}

function fixedOf(task: Task, begun: Begun | null, crew: Crew): FixedWork | null {
  if (begun !== null) {
    return {
      kind: 'frozen',
      start: begun.placedStart,
      finish: begun.placedFinish,
      builders: begun.builders,
    };
  }
  if (task.crew.length === 0) return null;
  return {
    kind: 'set',
    start: null,
    finish: null,
    builders: task.crew.map((person) => crew.builderIndex.get(person) ?? -1),
  };
}

/** A task as the engine's activity. `refit` is its index, `release` the refit's, in minutes. */
export function activityOf(
  task: Task,
  begun: Begun | null,
  refit: number,
  release: number,
  site: Site,
): Activity {
  return {
    id: task.id,
    refit,
    modes:
      begun === null
        ? headCounts(task, site).map((heads) => modeOf(task, heads, site))
        : [begunMode(task, begun, site)],
    release: begun === null ? Math.max(0, release, site.frame.now) : 0,
    fixed: fixedOf(task, begun, site.crew),
    source: `task:${task.id}`,
  };
}
