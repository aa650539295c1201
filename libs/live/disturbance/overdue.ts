import { isToPlan } from '#planning/workload/standing.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { span } from '../words/span.ts';

const MINUTE_MS = 60_000;
/** So late the work of a plan may begin before the plan is no longer one to be published. */
const MOST_MINUTES = 60;

/**
 * Work that a plan has begin long before `now` and that has not begun. None of a yard whose time has
 * not come or is over: there a plan begins with the yard, not with today.
 */
export function overdueWords(
  { planFrom, horizonDays }: Yard,
  { tasks }: Workload,
  sheet: PlanSheet,
  now: string,
): string[] {
  const at = Date.parse(now);
  const begin = Date.parse(planFrom);
  if (at < begin || at >= begin + horizonDays * 1440 * MINUTE_MS) return [];
  const waits = new Set(tasks.filter(isToPlan).map(({ id }) => id));
  return sheet.tasks.flatMap(({ id, name, boat, part, start }) => {
    const late = Math.floor((at - Date.parse(start.at)) / MINUTE_MS);
    if (late <= MOST_MINUTES || !waits.has(id)) return [];
    return [`"${name}" (${boat}, ${part}) was to begin ${span(late)} ago, and has not.`];
  });
}
