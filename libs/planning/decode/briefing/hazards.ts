import type { Hazards } from '#cure/caution/caution.ts';
import { cautionsOf } from '#cure/caution/cautions.ts';
import { reachedAt } from '#cure/clock/cure-clock.ts';
import type { Frame } from '../../compile/frame/time.ts';
import type { Whereabouts } from '../../compile/films/whereabouts.ts';
import { SCRAPE_OFF } from '../../workload/cut-back.ts';
import type { Task } from '../../workload/workload.ts';
import type { MixSite } from './mix.ts';
import type { PastWork, WorkBefore } from '../reading/past-work.ts';
import type { Rows } from '../reading/rows.ts';
import type { MixSheet, SheetCaution } from '../sheet.ts';
import { cited } from './trust.ts';

export interface HazardSite extends MixSite {
  readonly whereabouts: Whereabouts;
  readonly frame: Frame;
  readonly rows: Rows;
  readonly before: WorkBefore;
}

const SOLVENT_STEPS: ReadonlySet<string> = new Set(['dewax', 'wipe']);

/** Whether a film of epoxy is not surely cured through at a minute. */
function green({ task, finish }: PastWork, minute: number, site: HazardSite): boolean {
  if (task.material === null) return false;
  const { base, milestones } = site.films.material(task.material);
  if (base !== 'epoxy') return false;
  if (milestones.cured === undefined) return true;
  const places = site.whereabouts.ofFilm(task, 'cured');
  const cured = reachedAt(site.films.clock(task.material, 'cured', 'open', places), finish);
  return cured === null || cured > minute;
}

/** What the film was that has not set: the last that does not count any more. */
function scraped(task: Task, start: number, { before, films }: HazardSite): Hazards['uncured'] {
  const material = before(task, start)
    .map((work) => work.task)
    .findLast(({ state, material: laid }) => state === 'redo' && laid !== null)?.material;
  return material === undefined || material === null ? undefined : films.material(material).base;
}

function hazardsOf(
  task: Task,
  start: number,
  finish: number,
  mix: MixSheet | null,
  site: HazardSite,
): Hazards {
  const { yard, films, frame, before } = site;
  const material = task.material === null ? null : films.material(task.material);
  const row = yard.materials.find(({ id }) => id === task.material);
  const space = yard.spaces.find(({ id }) => id === task.space);
  const mixed = mix?.resinGrams ?? null;
  return {
    base: material?.base ?? null,
    uncured: task.stepId === SCRAPE_OFF ? scraped(task, start, site) : undefined,
    // What sets a polyester off is a peroxide, whatever its sheet says of the ratio.
    peroxide:
      material !== null && (material.base !== 'epoxy' || material.hardener?.kind === 'percent'),
    mixGrams: mixed === null ? null : mixed + (mix?.hardenerGrams ?? 0),
    dusty: task.air === 'dusty',
    greenEpoxy:
      task.air === 'dusty' && before(task, start).some((work) => green(work, start, site)),
    // Wiped with, or used to clean what the resin was laid with.
    solvent:
      task.prepares.some(({ kind }) => SOLVENT_STEPS.has(kind)) ||
      (material !== null && task.cleanDownMinutes > 0),
    enclosed: space?.enclosed ?? false,
    isocyanate: row?.isocyanate ?? false,
    unventedHeater: (space?.changes ?? []).some(
      ({ unvented, from, to }) =>
        unvented && frame.minuteOf(from) < finish && start < frame.minuteOf(to),
    ),
  };
}

/** What to mind at a task, the library's first, then what the yard adds of its material. */
export function cautionsFor(
  task: Task,
  start: number,
  finish: number,
  mix: MixSheet | null,
  site: HazardSite,
): SheetCaution[] {
  const own = site.yard.materials.find(({ id }) => id === task.material)?.cautions ?? [];
  return [
    ...cautionsOf(hazardsOf(task, start, finish, mix, site)).map((caution) => ({
      text: caution.text,
      source: cited(caution),
    })),
    ...own.map((text) => ({ text, source: 'the yard’s own' })),
  ];
}
