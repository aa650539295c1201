import type { NextCoat, Stage, Surface } from '#cure/bond/bond.ts';
import { exposedLayer, type LaidLayer, type SurfaceEvent } from '#cure/bond/history.ts';
import { stageOf } from '#cure/bond/stage.ts';
import type { CureMaterial, Milestone } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import { amountsOfTask } from '../../compile/work/amounts.ts';
import type { Layer } from '../../yard/boats.ts';
import type { Moment } from '../../yard/procedures.ts';
import type { Yard } from '../../yard/yard.ts';
import { stillThere } from '../../workload/cut-back.ts';
import { thisFace, turnsOver } from '../../workload/face.ts';
import type { Task } from '../../workload/workload.ts';
import type { HazardSite } from './hazards.ts';
import type { PastWork } from '../reading/past-work.ts';

/** What is exposed on a part, and the task that laid it; null: it was there before. */
export interface Found {
  readonly surface: Surface;
  readonly by: PastWork | null;
  /** What it is made of, as the yard calls it. */
  readonly name: string;
  /** How it is before its bond window, where the procedure wants it so; else null. */
  readonly wanted: 'wet' | 'tacky' | null;
}

/** What the procedure has a task wait for after another's film; null where it does not follow it. */
function followed(task: Task, film: PastWork, { rows }: HazardSite): Moment | null {
  const link = (rows.into.get(task.id) ?? []).find(
    ({ from, opens, setBy }) => from === film.task.id && opens !== null && setBy === 'procedure',
  );
  return link?.opens ?? null;
}

const opensOn = (moment: Moment | null, ...milestones: readonly Milestone[]): boolean =>
  moment?.kind === 'milestone' && milestones.includes(moment.milestone);

/** The films below a task: up to the last that it is to bond to, where the procedure names one. */
function filmsBelow(task: Task, works: readonly PastWork[], site: HazardSite): PastWork[] {
  const films = works.filter((work) => work.task.material !== null);
  const named = films.findLastIndex((film) =>
    opensOn(followed(task, film, site), 'bond-opens', 'tacky-opens'),
  );
  return named === -1 ? films : films.slice(0, named + 1);
}

/** Where a film has been: where it was laid, and where its part was taken since. */
const placesOf = (film: PastWork, works: readonly PastWork[]): string[] => [
  film.task.space,
  ...works.flatMap(({ task: { movesTo }, finish }) =>
    movesTo === null || finish <= film.start ? [] : [movesTo],
  ),
];

/** How far a film has come by a minute; of one that is still being laid, the first of it. */
function filmStage(
  film: PastWork,
  works: readonly PastWork[],
  material: string,
  minute: number,
  next: NextCoat['base'],
  { films }: HazardSite,
): Stage {
  const laid = film.finish > minute ? film.start : film.finish;
  const places = [...new Set(placesOf(film, works))];
  const [sheet, band] = [films.material(material), films.surface(places)];
  return stageOf(sheet, band, film.start, laid, minute, next, (milestone, side) =>
    films.clock(material, milestone, side, places),
  );
}

/** A layer of a part, and where it is from: a task's film, or what was there before. */
interface Origin extends LaidLayer {
  readonly film: PastWork | null;
  readonly sheet: string | null;
}

/** How thick a task lays its film, where its quantity says so. */
function thickness({ task }: PastWork, material: CureMaterial, yard: Yard): number | null {
  try {
    return amountsOfTask(yard, task, material)?.filmMm ?? null;
  } catch (error) {
    if (error instanceof DomainError) return null;
    throw error;
  }
}

/** Judged later: only of the layer that is exposed. */
const UNJUDGED: Stage = 'cured';

function filmLayer(film: PastWork, id: string, minute: number, site: HazardSite): Origin {
  const sheet = site.films.material(id);
  return {
    film,
    sheet: id,
    substrate: sheet.base,
    kind: sheet.surface,
    waxed: sheet.waxed,
    blushes: sheet.blushes,
    laidAt: Math.min(film.finish, minute),
    mm: thickness(film, sheet, site.yard),
    stage: UNJUDGED,
  };
}

const oldLayer = (
  { base, material, surface, waxed, laidAt, mm }: Layer,
  { films, frame }: HazardSite,
): Origin => ({
  film: null,
  sheet: material,
  substrate: base,
  kind: surface,
  waxed,
  blushes: material === null ? false : films.material(material).blushes,
  laidAt: laidAt === null ? null : frame.minuteOf(laidAt),
  mm,
  stage: UNJUDGED,
});

/** Of before: cured through, unless the yard says when it was laid and of what. */
function stageFor(
  { film, sheet, laidAt }: Origin,
  works: readonly PastWork[],
  space: string,
  minute: number,
  next: NextCoat['base'],
  site: HazardSite,
): Stage {
  if (sheet === null || laidAt === null) return 'cured';
  if (film !== null) return filmStage(film, works, sheet, minute, next, site);
  const { films } = site;
  return stageOf(films.material(sheet), films.surface([space]), laidAt, laidAt, minute, next);
}

const eventsOf = ({ task, finish }: PastWork, minute: number): SurfaceEvent[] =>
  task.prepares.map(({ kind, grit, mm }) => ({
    at: Math.min(finish, minute),
    kind,
    grit,
    mm: mm ?? 0,
  }));

/**
 * What a task that begins at a minute finds on its part, for a next material of a base: the
 * films that were laid before, or what the part is made of, with what was done to it since, and
 * what is below where that was sanded through. Null where nothing is known. Throws `cure.missing`
 * where the answer hangs on a line that a sheet lacks.
 */
export function foundBy(
  task: Task,
  minute: number,
  next: NextCoat['base'],
  site: HazardSite,
): Found | null {
  const part = site.rows.parts.get(task.partId)?.part;
  const all = site.before(task, minute);
  const there = stillThere(
    all,
    (work) => work.task,
    (film, cut) => film.start <= cut.start && cut.finish <= minute,
  );
  const works = thisFace(there, (work) => turnsOver(work.task));
  const layers = [
    ...(part?.layers ?? []).map((one) => oldLayer(one, site)),
    ...filmsBelow(task, works, site).flatMap((work) =>
      work.task.material === null ? [] : [filmLayer(work, work.task.material, minute, site)],
    ),
  ];
  if (layers.length === 0) return null;
  const events = works.flatMap((work) => eventsOf(work, minute));
  const { surface, layer } = exposedLayer({ now: minute, layers, events });
  const stage = stageFor(layer, all, part?.space ?? task.space, minute, next, site);
  const waits = layer.film === null || stage !== 'wet' ? null : followed(task, layer.film, site);
  const wanted = waits === null ? null : opensOn(waits, 'tacky-opens') ? 'tacky' : 'wet';
  return {
    surface: { ...surface, stage: wanted === null ? stage : 'open' },
    wanted,
    by: layer.film,
    name: layer.sheet === null ? layer.substrate : site.films.material(layer.sheet).name,
  };
}
