import { frameOf, type Frame } from '../../compile/frame/time.ts';
import { inTheirSpaces } from '../../workload/in-space.ts';
import { isOver, isToPlan, restOf } from '../../workload/standing.ts';
import type { Task, TaskLink, Workload } from '../../workload/workload.ts';
import { briefingOf } from '../briefing/briefing.ts';
import type { HazardSite } from '../briefing/hazards.ts';
import { doneBefore } from '../reading/past-work.ts';
import { shortName } from '../reading/rows.ts';
import type { PlanSheet } from '../sheet.ts';
import { deadEnds } from './dead-end.ts';
import { groundOf, type Ground } from './ground.ts';
import { leftOut, type Left } from './left-out.ts';
import { needsOf, type Need, type Needs, type Ranked } from './need.ts';
import { obstacleOf } from './obstacles.ts';
import { placeAt, type Hindrance, type Obstacle, type Place } from './place.ts';
import {
  listedOf,
  type ReadyList,
  type ReadyTask,
  type StandingInput,
  type WaitingTask,
} from './ready.ts';
import { waysOpen, type OpenWays, type StillOpen } from './still-open.ts';
import { briefest, pressureOf, windowOf, type TaskWindow } from './windows.ts';

/**
 * How the work of a yard stands at a moment. All of it is looked up when it is asked for, and
 * once: a question about one task costs what hangs on that task, whatever the size of the yard.
 */
export interface Standing {
  /**
   * Why a task may not begin now, or its rest go on; null if it may. Also said of what has begun,
   * is left out by the plan's choices, or is no part of the work.
   */
  whyNot(taskId: string): Hindrance | null;
  /** Null unless it waits or was put aside, and the plan does not leave it out. */
  task(taskId: string): ReadyTask | WaitingTask | null;
  /** Ids of what may be taken up now: what the boats need first comes first. */
  readonly ready: readonly string[];
  /** Ids of what waits, likewise. */
  readonly waiting: readonly string[];
  /** Those of them beyond where a task stands, whatever has become of that. */
  waitingAfter(taskId: string): readonly string[];
  /** Whether there is such a task. */
  has(taskId: string): boolean;
  all(): ReadyList;
  /** Of every link from work that has begun to work that is to come. */
  windows(): readonly TaskWindow[];
}

const begun: Readonly<Partial<Record<Task['state'], string>>> = {
  working: 'it is being done',
  done: 'it is done',
  redo: 'it is done, and a rework does it again',
};

type Asked = Pick<StandingInput, 'workload' | 'sheet' | 'stillOpen'>;

/** One object, so that what was found out for it is found again. */
const nothing: readonly StillOpen[] = [];

/** The one moment of one state, and what has been found out about it. */
class Moment implements Standing {
  readonly #place: Place;
  readonly #ground: Ground;
  readonly #workload: Workload;
  readonly #sheet: PlanSheet | null;
  readonly #left: Left;
  readonly #ways: OpenWays;
  readonly #site: HazardSite;
  readonly #obstacles = new Map<string, Obstacle | null>();
  readonly #tasks = new Map<string, ReadyTask | WaitingTask>();
  #ready: readonly string[] | null = null;
  #waiting: readonly string[] | null = null;
  #windows: readonly TaskWindow[] | null = null;

  constructor(ground: Ground, { workload, sheet, stillOpen = nothing }: Asked, now: number) {
    this.#ground = ground;
    this.#workload = workload;
    this.#sheet = sheet;
    this.#place = placeAt(ground, workload, now);
    this.#left = leftOut(workload, ground, sheet);
    this.#ways = waysOpen(stillOpen, this.#place);
    this.#site = {
      ...this.#place,
      before: doneBefore((part) => this.#place.on(part), ground.frame, now),
    };
  }

  whyNot(taskId: string): Hindrance | null {
    const task = this.#place.rows.tasks.get(taskId);
    if (task === undefined) return { why: 'it is no part of the work', opens: null };
    const over = begun[task.state];
    if (over !== undefined) return { why: over, opens: null };
    if (this.#left.tasks.has(taskId))
      return { why: 'the plan goes another way and leaves it out', opens: null };
    return this.#hindrance(this.#obstacle(task));
  }

  task(taskId: string): ReadyTask | WaitingTask | null {
    const known = this.#tasks.get(taskId);
    if (known !== undefined) return known;
    const task = this.#place.rows.tasks.get(taskId);
    if (task === undefined || !this.#isListed(task)) return null;
    const found = this.#listed(task);
    this.#tasks.set(taskId, found);
    return found;
  }

  get ready(): readonly string[] {
    const { tasks } = this.#workload;
    this.#ready ??= tasks
      .filter((task) => this.#isListed(task) && this.#obstacle(task) === null)
      .map((task) => this.#ranked(task))
      .sort((a, b) => this.#needs().compare(a, b))
      .map(({ place }) => tasks[place].id);
    return this.#ready;
  }

  has(taskId: string): boolean {
    return this.#place.rows.tasks.has(taskId);
  }

  get waiting(): readonly string[] {
    const { tasks } = this.#workload;
    this.#waiting ??= [...this.#inOrder()]
      .map(({ place }) => tasks[place])
      .filter((task) => this.#obstacle(task) !== null)
      .map(({ id }) => id);
    return this.#waiting;
  }

  waitingAfter(taskId: string): readonly string[] {
    const last = this.#place.rows.tasks.get(taskId);
    if (last === undefined) return [];
    const from = this.#ranked(last);
    const needs = this.#needs();
    return this.waiting.filter((id) => {
      const task = this.#place.rows.tasks.get(id);
      return task !== undefined && needs.compare(this.#ranked(task), from) > 0;
    });
  }

  all(): ReadyList {
    const found = [...this.ready, ...this.waiting].flatMap((id) => this.task(id) ?? []);
    return {
      ready: found.filter((task) => task.isReady),
      waiting: found.filter((task) => !task.isReady),
    };
  }

  windows(): readonly TaskWindow[] {
    this.#windows ??= this.#workload.tasks
      .filter((task) => !isToPlan(task))
      .flatMap(({ id }) => this.#out(id))
      .flatMap((link) => windowOf(link, this.#place) ?? []);
    return this.#windows;
  }

  #needs(): Needs {
    return needsOf(this.#ground, this.#workload, this.#sheet);
  }

  #ranked(task: Task): Ranked {
    return { place: this.#ground.structure.place.get(task.id) ?? 0, need: this.#need(task) };
  }

  /** All that is to be done, as it is needed: that which a window presses has its place by that. */
  *#inOrder(): IterableIterator<Ranked> {
    const { tasks } = this.#workload;
    const needs = this.#needs();
    const pressed = tasks
      .filter((task) => this.#isListed(task))
      .map((task) => this.#ranked(task))
      .filter(({ need }) => need.why === 'window')
      .sort((a, b) => needs.compare(a, b));
    const isPressed = new Set(pressed.map(({ place }) => place));
    let next = 0;
    for (const place of needs.order) {
      const task = tasks[place];
      if (isPressed.has(place) || !this.#isListed(task)) continue;
      const own = { place, need: needs.of(place, task, null) };
      for (; next < pressed.length && needs.compare(pressed[next], own) < 0; next += 1)
        yield pressed[next];
      yield own;
    }
    yield* pressed.slice(next);
  }

  #isListed(task: Task): boolean {
    return isToPlan(task) && !this.#left.tasks.has(task.id);
  }

  #links(task: Task): readonly TaskLink[] {
    const into = this.#ways.links(task.id) ?? this.#ground.structure.into.get(task.id) ?? [];
    const { tasks, links } = this.#left;
    if (links.size === 0 && tasks.size === 0) return into;
    return into.filter(({ id, from }) => !links.has(id) && !tasks.has(from));
  }

  /** Links from a task to what is not left out. */
  #out(taskId: string): readonly TaskLink[] {
    const out = this.#ground.structure.outOf.get(taskId) ?? [];
    return out.filter(({ id, to }) => !this.#left.links.has(id) && !this.#left.tasks.has(to));
  }

  #obstacle(task: Task): Obstacle | null {
    const known = this.#obstacles.get(task.id);
    if (known !== undefined) return known;
    const found = obstacleOf(task, this.#links(task), this.#place);
    this.#obstacles.set(task.id, found);
    return found;
  }

  #hindrance(obstacle: Obstacle | null): Hindrance | null {
    if (obstacle === null) return null;
    const { why, until } = obstacle;
    return { why, opens: until === null ? null : this.#place.at.when(Math.ceil(until)) };
  }

  #need(task: Task): Need {
    const place = this.#ground.structure.place.get(task.id) ?? 0;
    return this.#needs().of(place, task, pressureOf(task, this.#links(task), this.#place));
  }

  #listed(task: Task): ReadyTask | WaitingTask {
    const { at, rows, now } = this.#place;
    const pressure = pressureOf(task, this.#links(task), this.#place);
    const need = this.#need(task);
    const rest = restOf(task);
    const words: Record<NonNullable<Need['why']>, string> = {
      window: `the window of ${pressure === null ? '' : shortName(rows, pressure.link.from)} shuts`,
      foreman: 'the foreman has set it for then',
      plan: 'begun later than that, it puts off when its boat is finished',
    };
    const listed = {
      ...listedOf(task, rest, rows),
      neededBy: need.why === null ? null : at.when(Math.floor(need.by)),
      because: need.why === null ? null : words[need.why],
      notes: this.#ways.notes(task.id),
    };
    const hindrance = this.#hindrance(this.#obstacle(task));
    if (hindrance !== null) return { ...listed, isReady: false, ...hindrance };
    const over = now + briefest(task);
    const ends = deadEnds(task, this.#out(task.id), this.#sheet, this.#place);
    return {
      ...listed,
      notes: [...listed.notes, ...ends],
      isReady: true,
      closes: pressure === null ? null : at.when(Math.floor(pressure.closes)),
      openMinutes: pressure === null ? null : Math.floor(pressure.closes - now),
      startBy: pressure === null ? null : at.when(Math.floor(pressure.startBy)),
      ...briefingOf(rest, now, over, over, this.#site),
    };
  }
}

/**
 * The work as it was at a minute, which may be past: what began later waited then, and what was
 * over later was going on. The same object where all that happened was before.
 */
function asOf(workload: Workload, frame: Frame, now: number): Workload {
  const isLater = (at: string | null): boolean => at !== null && frame.minuteOf(at) > now;
  const asThen = (task: Task): Task => {
    if (isLater(task.startedAt))
      return { ...task, state: 'waiting', startedAt: null, finishedAt: null, leftMinutes: null };
    return isOver(task) && isLater(task.finishedAt) ? { ...task, state: 'working' } : task;
  };
  const tasks = workload.tasks.map(asThen);
  return tasks.every((task, k) => task === workload.tasks[k]) ? workload : { ...workload, tasks };
}

interface Known {
  readonly input: StandingInput;
  readonly moments: Map<number, Standing>;
}

/** Of one state a few moments: phones tell of what was minutes ago. */
const mostMoments = 4;
const known = new WeakMap<Workload, WeakMap<readonly StillOpen[], Known>>();

/** How the work stands at `now`; the same answer for the same objects in the same minute. */
export function standing(input: StandingInput): Standing {
  const { yard, workload, sheet, stillOpen = nothing } = input;
  const frame = frameOf(yard, undefined, undefined);
  const now = frame.minuteOf(input.now);
  const ofWork = known.get(workload) ?? new WeakMap<readonly StillOpen[], Known>();
  known.set(workload, ofWork);
  const before = ofWork.get(stillOpen);
  const fits = before?.input.yard === yard && before.input.sheet === sheet;
  const moments = fits ? before.moments : new Map<number, Standing>();
  if (!fits) ofWork.set(stillOpen, { input, moments });
  const same = moments.get(now);
  if (same !== undefined) return same;
  const placed = inTheirSpaces(yard, asOf(workload, frame, now));
  const asked = { workload: placed, sheet, stillOpen };
  const made = new Moment(groundOf(yard, placed, now), asked, now);
  moments.set(now, made);
  const [oldest] = moments.keys();
  if (moments.size > mostMoments) moments.delete(oldest);
  return made;
}
