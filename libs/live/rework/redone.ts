import { standingOf } from '#planning/compile/work/choices.ts';
import { DomainError } from '#kernel/error.ts';
import { turnsOver } from '#planning/workload/face.ts';
import type { Task, TaskLink, Workload } from '#planning/workload/workload.ts';
import { isWet, zoneOf, type Wet } from './films.ts';

/** The work of a part, and what of it is so far. */
export interface PartWork {
  readonly tasks: ReadonlyMap<string, Task>;
  /** That hold: not those of branches that were not taken. */
  readonly from: (task: string) => readonly TaskLink[];
}

export function partWork(workload: Workload, partId: string): PartWork {
  const { droppedLinks, dropped } = standingOf(workload);
  const tasks = new Map(
    workload.tasks
      .filter((task) => task.partId === partId && !dropped.has(task.id))
      .map((task) => [task.id, task]),
  );
  const holds = workload.links.filter(
    ({ id, from, to, opens }) =>
      !droppedLinks.has(id) && opens !== null && tasks.has(from) && tasks.has(to),
  );
  const by = Map.groupBy(holds, ({ from }) => from);
  return { tasks, from: (task) => by.get(task) ?? [] };
}

const begunAt = ({ startedAt }: Task): number => Date.parse(startedAt ?? '');
const overAt = ({ finishedAt, startedAt }: Task): number =>
  Date.parse(finishedAt ?? startedAt ?? '');

/** Which face of its part was up at a moment: 0 or 1. */
export function faceUp(work: PartWork, at: number): number {
  const turns = [...work.tasks.values()].filter(
    (task) => task.state === 'done' && turnsOver(task) && overAt(task) <= at,
  );
  return turns.length % 2;
}

/** Whether a film goes over what another has laid, by the link between the two. */
const liesOn = ({ opens, sweep }: TaskLink): boolean =>
  opens?.kind === 'milestone' || sweep === 'same';

/** Carries, puts up a sheet, is lifted by a crane: nothing that a repair undoes. */
const stays = ({ movesTo, barrier, slots, skill }: Task): boolean =>
  movesTo !== null || barrier !== null || (slots !== null && skill !== null);

/** A film along joints or edges covers a spot elsewhere on the part only where all of it is meant. */
const covers = (upper: Task, lower: Task, whole: boolean): boolean =>
  whole || zoneOf(upper) === 'area' || zoneOf(upper) === zoneOf(lower);

/** All that comes after a task on its part by any links. */
function everythingAfter(work: PartWork, task: Task): ReadonlySet<string> {
  const found = new Set<string>();
  const open = [task.id];
  for (let id = open.pop(); id !== undefined; id = open.pop())
    for (const { to } of work.from(id)) {
      if (found.has(to)) continue;
      found.add(to);
      open.push(to);
    }
  return found;
}

/** By links: films that lie over it, and the dry work between and after them. */
function reached(work: PartWork, task: Task, whole: boolean, found: Map<string, Task>): void {
  const open: Task[] = [task];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    for (const link of work.from(at.id)) {
      const to = work.tasks.get(link.to);
      if (to === undefined || found.has(to.id) || stays(to)) continue;
      const over = isWet(at) && isWet(to) ? liesOn(link) : true;
      if (!over || (isWet(to) && !covers(to, task, whole))) continue;
      if (to.state === 'working' || to.state === 'paused') throw underWay(to);
      if (to.state !== 'done') continue;
      found.set(to.id, to);
      open.push(to);
    }
  }
}

const underWay = ({ id, name }: Task): DomainError =>
  new DomainError('snag.state', `"${name}" (${id}) lies over the fault and is under way`, {
    cure: 'Finish it or put it aside first, then have the rework made.',
  });

/** Dry work of another job that leads to no film that is laid again has nothing to do with it. */
function withoutStrangers(work: PartWork, task: Task, found: Map<string, Task>): void {
  const jobs = new Set([task, ...[...found.values()].filter(isWet)].map(({ jobId }) => jobId));
  for (const one of [...found.values()]) {
    if (isWet(one) || jobs.has(one.jobId)) continue;
    const after = everythingAfter(work, one);
    if (![...found.values()].some((film) => isWet(film) && after.has(film.id)))
      found.delete(one.id);
  }
}

/**
 * The done work that falls with a film (or with dry work): what was laid over it on the same face,
 * the dry work that belongs to that, and the looks of others that it has to stand again. In the
 * order in which it was done; `task` itself is not among it. `whole`: all of the film is meant.
 * Throws snag.state where such work is under way.
 */
export function fallsWith(work: PartWork, task: Task, whole: boolean): Task[] {
  const found = new Map<string, Task>();
  reached(work, task, whole, found);
  const after = everythingAfter(work, task);
  if (isWet(task)) {
    const up = faceUp(work, begunAt(task));
    const others = [...work.tasks.values()].filter(
      (one): one is Wet =>
        isWet(one) &&
        one.state === 'done' &&
        one.jobId !== task.jobId &&
        !after.has(one.id) &&
        begunAt(one) >= overAt(task) &&
        faceUp(work, begunAt(one)) === up &&
        covers(one, task, whole),
    );
    for (const one of others) {
      found.set(one.id, one);
      reached(work, one, whole, found);
    }
  }
  found.delete(task.id);
  for (const [id, one] of work.tasks) {
    const looked = one.skill === null && one.state === 'done' && one.jobId === task.jobId;
    if (looked && after.has(id)) found.set(id, one);
  }
  withoutStrangers(work, task, found);
  return [...found.values()].sort((a, b) => begunAt(a) - begunAt(b) || overAt(a) - overAt(b));
}

/** The film that is to be laid on a film next, where that is still to come; null: none is planned. */
export function nextOver(work: PartWork, film: Task): Wet | null {
  const seen = new Set<string>([film.id]);
  const open: Task[] = [film];
  for (let at = open.shift(); at !== undefined; at = open.shift()) {
    for (const link of work.from(at.id)) {
      const to = work.tasks.get(link.to);
      if (to === undefined || seen.has(to.id) || stays(to)) continue;
      seen.add(to.id);
      if (!isWet(to)) open.push(to);
      else if (to.state === 'waiting' && (!isWet(at) || liesOn(link))) return to;
    }
  }
  return null;
}
