import type { NextCoat, Stage, Surface } from '#cure/bond/bond.ts';
import { exposed, type LaidLayer, type SurfaceEvent } from '#cure/bond/history.ts';
import { stageOf } from '#cure/bond/stage.ts';
import { DomainError } from '#kernel/error.ts';
import { thisFace, turnsOver } from '../workload/face.ts';
import { stillThere } from '../workload/cut-back.ts';
import { isOver } from '../workload/standing.ts';
import type { Task, Workload } from '../workload/workload.ts';
import type { Layer, Part } from '../yard/boats.ts';
import type { Yard } from '../yard/yard.ts';
import { around, type Around } from './around.ts';

export interface SurfaceQuestion {
  readonly part: string;
  readonly now: string;
  /** What is to go on it, where it is known: its kind decides whether a bond window counts. */
  readonly next: NextCoat['base'] | null;
}

/** A film older than that is taken for cured through, whatever its sheet says. */
const OLD_DAYS = 90;
const DAY_MS = 86_400_000;

/**
 * What of a part is exposed at a moment: by its layers, the films that finished tasks have laid on it, and what
 * was done to them since. Null where nothing is known of the part. Throws record.missing, and
 * cure.missing where how far a film has come hangs on a line that its sheet lacks.
 */
export function partSurface(
  yard: Yard,
  workload: Workload,
  asked: SurfaceQuestion,
): Surface | null {
  const part = partOf(yard, asked.part);
  const begun = workload.tasks
    .flatMap((task) => begunBy(task, part, asked.now))
    .sort((a, b) => Date.parse(a.startedAt ?? '') - Date.parse(b.startedAt ?? ''));
  const there = stillThere(begun, (task) => task, cutAfter);
  const tasks = thisFace(there, (task) => isOver(task) && turnsOver(task));
  const seen = seenSince(yard, part, tasks, asked.now);
  const now = seen.frame.minuteOf(asked.now);
  const films = [
    ...part.layers.map((layer) => layerOf(layer, part, asked, seen)),
    ...tasks.flatMap((task) => filmOf(task, asked, seen)),
  ];
  const layers = films.sort((a, b) => (a.laidAt ?? -Infinity) - (b.laidAt ?? -Infinity));
  const shown = layers.filter(({ laidAt }) => laidAt === null || laidAt <= now);
  if (shown.length === 0) return null;
  const events = tasks.flatMap((task) => eventsOf(task, seen)).filter(({ at }) => at <= now);
  return exposed({ now, layers: shown, events });
}

/** A film is cut back only by work that is over. */
const cutAfter = (film: Task, cut: Task): boolean =>
  isOver(cut) && Date.parse(film.startedAt ?? '') <= Date.parse(cut.startedAt ?? '');

/** From the oldest film on that is not too old to matter. */
function seenSince(yard: Yard, part: Part, tasks: readonly Task[], now: string): Around {
  const oldest = Date.parse(now) - OLD_DAYS * DAY_MS;
  const laid = [
    ...part.layers.map(({ laidAt }) => laidAt),
    ...tasks.map(({ startedAt }) => startedAt),
  ].flatMap((at) => (at === null || Date.parse(at) < oldest ? [] : [Date.parse(at)]));
  const since = Math.min(Date.parse(now), ...laid);
  const days = Math.ceil((Date.parse(now) - since) / DAY_MS) + 1;
  return around(yard, new Date(since).toISOString(), days, {
    spaces: [part.space, ...tasks.map(({ space }) => space)],
    materials: [...part.layers, ...tasks].flatMap(({ material }) => material ?? []),
  });
}

/** A task of the part as it was at that moment: one that ended later was still going on. */
function begunBy(task: Task, part: Part, now: string): Task[] {
  const { startedAt, finishedAt } = task;
  const moment = Date.parse(now);
  if (task.partId !== part.id || startedAt === null || Date.parse(startedAt) > moment) return [];
  if (finishedAt === null || Date.parse(finishedAt) <= moment) return [task];
  return [{ ...task, state: 'working', finishedAt: null }];
}

function partOf(yard: Yard, id: string): Part {
  for (const { refits } of yard.boats) {
    for (const { parts } of refits) {
      const part = parts.find((one) => one.id === id);
      if (part !== undefined) return part;
    }
  }
  throw new DomainError('record.missing', `There is no part "${id}"`);
}

/** What is laid wet; wood, metal and foam are what they are from the first. */
const CURES: ReadonlySet<Layer['base']> = new Set(['polyester', 'vinyl-ester', 'epoxy', 'paint']);

function layerOf(layer: Layer, part: Part, asked: SurfaceQuestion, seen: Around): LaidLayer {
  const { base, material, surface, waxed, mm } = layer;
  const laidAt = layer.laidAt === null ? null : seen.frame.minuteOf(layer.laidAt);
  const made = material === null ? null : seen.films.material(material);
  return {
    substrate: base,
    kind: surface,
    waxed,
    blushes: made?.blushes ?? false,
    laidAt,
    mm,
    stage: CURES.has(base) ? stageAt(material, part.space, laidAt, laidAt, asked, seen) : 'cured',
  };
}

/** The film of a task that has begun; it is wet while the task goes on. */
function filmOf(task: Task, asked: SurfaceQuestion, seen: Around): LaidLayer[] {
  const { material, startedAt, finishedAt } = task;
  if (material === null || startedAt === null) return [];
  const sheet = seen.films.material(material);
  const start = seen.frame.minuteOf(startedAt);
  const done = isOver(task) && finishedAt !== null;
  const finish = done ? seen.frame.minuteOf(finishedAt) : start;
  return [
    {
      substrate: sheet.base,
      kind: sheet.surface,
      waxed: sheet.waxed,
      blushes: sheet.blushes,
      laidAt: finish,
      mm: null,
      stage: done ? stageAt(material, task.space, start, finish, asked, seen) : 'wet',
    },
  ];
}

/** Of a material that nobody knows: soft, and past its window, unless it was there long ago. */
function stageAt(
  material: string | null,
  space: string,
  start: number | null,
  finish: number | null,
  { now, next }: SurfaceQuestion,
  { films, frame }: Around,
): Stage {
  if (start === null || finish === null || start < 0) return 'cured';
  if (material === null) return 'between';
  const sheet = films.material(material);
  const at = frame.minuteOf(now);
  return stageOf(sheet, films.surface([space]), start, finish, at, next ?? sheet.base);
}

function eventsOf(task: Task, { frame }: Around): SurfaceEvent[] {
  if (!isOver(task) || task.finishedAt === null) return [];
  const at = frame.minuteOf(task.finishedAt);
  return task.prepares.map(({ kind, grit, mm }) => ({ at, kind, grit, mm: mm ?? 0 }));
}
