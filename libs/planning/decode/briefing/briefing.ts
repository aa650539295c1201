import { isOver } from '../../workload/standing.ts';
import type { Task } from '../../workload/workload.ts';
import { airWarnings } from './air-warnings.ts';
import { coatOf } from './coat.ts';
import { cautionsFor, type HazardSite } from './hazards.ts';
import { mixOf } from './mix.ts';
import type { SheetTask } from '../sheet.ts';
import { usesOf } from './uses.ts';

/** What a crew needs to know before it begins a task. */
export type Briefing = Pick<SheetTask, 'mix' | 'bond' | 'consumables' | 'warnings' | 'cautions'>;

/**
 * The briefing of a task from minute `start` to `finish`; weather matters to it until minute
 * `until`. Nothing is weighed any more for what is done.
 */
export function briefingOf(
  task: Task,
  start: number,
  finish: number,
  until: number,
  site: HazardSite,
): Briefing {
  const over = isOver(task);
  const mix = over ? null : mixOf(task, start, finish, site);
  const { bond, warnings } = coatOf(task, start, site);
  return {
    mix,
    bond,
    consumables: usesOf(task, site.yard, site.rows),
    warnings: over ? [] : [...airWarnings(task, start, finish, until, site), ...warnings],
    cautions: cautionsFor(task, start, finish, mix, site),
  };
}
