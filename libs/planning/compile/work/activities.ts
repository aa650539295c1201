import type {
  Activity,
  FixedWork,
  Forbidden,
  Mode,
  Release,
  ResourceDemand,
} from '#scheduling/model/problem.ts';
import type { Task } from '../../workload/workload.ts';
import type { Crew, Pace } from '../site/crew.ts';
import type { Films } from '../films/films.ts';
import type { Begun } from './frozen.ts';
import { PER_CENT } from '../frame/money.ts';
import { taken } from '../site/outside.ts';
import { mostOf, type Places } from '../site/places.ts';
import { refusedStarts } from '../films/refused.ts';
import type { Frame } from '../frame/time.ts';
import type { Whereabouts } from '../films/whereabouts.ts';

/** Work units of one builder-minute at the nominal rate. */
const NOMINAL = 100;

/** What tasks are done with, and where. */
export interface Site {
  readonly crew: Crew;
  readonly places: Places;
  readonly films: Films;
  readonly frame: Frame;
  readonly whereabouts: Whereabouts;
  readonly stockIndex: ReadonlyMap<string, number>;
  readonly slotIndex: ReadonlyMap<string, number>;
  readonly partIndex: ReadonlyMap<string, number>;
  /** Where work that is done has taken parts. */
  readonly moved: ReadonlyMap<string, string>;
  readonly releases: (task: Task) => readonly Release[];
}

/** Indices of the builders who may be on the task. */
export const ableFor = ({ skill, minLevel }: Task, crew: Crew): readonly number[] =>
  skill === null ? [] : crew.able(skill, minLevel);

/** Minutes that so many hands need: the quickest who can, or the slowest; not learners alone. */
export function minutesWith(task: Task, heads: number, crew: Crew, who: Pace): number {
  const { skill, minLevel } = task;
  if (skill === null) return 0;
  const speed = crew.pace(skill, minLevel, heads, who);
  if (speed === null) return Infinity;
  return Math.max(task.floorMinutes, Math.ceil((task.workMinutes * NOMINAL) / speed));
}

/** Head-counts that the task, the people and the room allow. */
export function headCounts(task: Task, site: Site): number[] {
  if (task.skill === null) return [0];
  const able = ableFor(task, site.crew).length;
  const room = site.places.roomOf.get(task.space);
  const places = room === undefined ? Infinity : mostOf(site.places.resources[room]);
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
    ...(room === undefined || heads === 0
      ? []
      : [{ resource: room, amount: heads, keptWhilePaused: false }]),
    ...tools,
  ];
}

/** Starts that the film's material refuses, were the slowest crew to lay it: a record for each reason. */
function forbiddenOf(task: Task, heads: number, site: Site): Forbidden[] {
  const { films, frame, whereabouts } = site;
  const minutes = minutesWith(task, heads, site.crew, 'slowest');
  return refusedStarts(task, minutes, films, whereabouts).flatMap(({ kind, spans }) => {
    const ahead = spans
      .filter(({ end }) => end > frame.now)
      .map(({ start, end }) => ({ start: Math.max(0, start), end }));
    if (ahead.length === 0) return [];
    return [{ anchor: 'start', spans: ahead, kind, source: `material:${task.material ?? ''}` }];
  });
}

const spaceOf = (space: string | null, { places }: Site): number | null =>
  space === null ? null : (places.spaceIndex.get(space) ?? null);

function barrierOf({ barrier }: Task, { places }: Site): Mode['barrier'] {
  if (barrier === null) return null;
  const index = places.barrierIndex.get(barrier.barrier);
  return index === undefined ? null : { barrier: index, closes: barrier.closes };
}

function modeOf(task: Task, heads: number, site: Site): Mode {
  const skill = task.skill === null ? undefined : site.crew.skillIndex.get(task.skill);
  return {
    duration: 0,
    work: task.workMinutes * NOMINAL,
    floor: task.floorMinutes,
    crew: skill === undefined ? [] : [{ skill, minLevel: task.minLevel, count: heads }],
    demands: demandsOf(task, heads, site.places),
    consumes: task.consumes.flatMap(({ stock, amount }) => {
      const index = site.stockIndex.get(stock);
      const much = taken(amount);
      return index === undefined || much === 0 ? [] : [{ stock: index, amount: much }];
    }),
    splittable: task.skill !== null && task.splittable,
    breaks: task.breaks,
    cleanDown: task.cleanDownMinutes,
    forbidden: forbiddenOf(task, heads, site),
    space: spaceOf(task.space, site),
    air: task.air,
    movesTo: spaceOf(task.movesTo, site),
    barrier: barrierOf(task, site),
    slots: task.slots === null ? null : (site.slotIndex.get(task.slots) ?? null),
    cost: task.price * PER_CENT,
  };
}

/**
 * Work that has begun: one mode as it was, demands only while it goes on. Where what is done took
 * parts, and how it left barriers, is where the problem begins.
 */
function begunMode(task: Task, begun: Begun, site: Site): Mode {
  const { builders, over } = begun;
  const skill = task.skill === null ? undefined : site.crew.skillIndex.get(task.skill);
  const space = over ? (site.moved.get(task.partId) ?? task.space) : task.space;
  return {
    duration: begun.placedFinish - begun.placedStart,
    work: task.workMinutes * NOMINAL,
    floor: 0,
    crew:
      builders.length === 0 || skill === undefined
        ? []
        : [{ skill, minLevel: task.minLevel, count: builders.length }],
    demands: over ? [] : demandsOf(task, builders.length, site.places),
    consumes: [],
    splittable: false,
    breaks: 'relieved',
    cleanDown: 0,
    forbidden: [],
    space: spaceOf(space, site),
    air: task.air,
    movesTo: over ? null : spaceOf(task.movesTo, site),
    barrier: over ? null : barrierOf(task, site),
    slots: null,
    cost: 0,
  };
}

function fixedOf(task: Task, begun: Begun | null, { crew, frame }: Site): FixedWork | null {
  if (begun !== null) {
    return {
      kind: 'frozen',
      start: begun.placedStart,
      finish: begun.placedFinish,
      builders: begun.builders,
    };
  }
  if (task.crew.length === 0 && task.fixedStart === null) return null;
  return {
    kind: 'set',
    start: task.fixedStart === null ? null : frame.minuteOf(task.fixedStart),
    finish: null,
    builders:
      task.crew.length === 0
        ? null
        : task.crew.map((person) => crew.builderIndex.get(person) ?? -1),
  };
}

/** A task as the engine's activity; `refit` is its index. */
export function activityOf(task: Task, begun: Begun | null, refit: number, site: Site): Activity {
  const parts = task.parts.flatMap((part) => site.partIndex.get(part) ?? []);
  return {
    id: task.id,
    refit,
    modes:
      begun === null
        ? headCounts(task, site).map((heads) => modeOf(task, heads, site))
        : [begunMode(task, begun, site)],
    releases: begun === null ? site.releases(task) : [],
    // The part of a film that is laid is what its surface is followed by.
    parts: begun?.over === true && task.material === null ? [] : parts,
    fixed: fixedOf(task, begun, site),
    source: `task:${task.id}`,
  };
}
