import { localWords } from '#calendar/local-time.ts';
import type { Workload } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';

/**
 * The work without fixed starts that have passed unbegun: nobody can begin in the past, and the
 * wish must not make every plan impossible. Such a task is planned as soon as it can be, and
 * `words` says so of each. `now`: the ISO instant that planning begins at.
 */
export function withoutPassedStarts(
  yard: Yard,
  workload: Workload,
  now: string,
): { readonly workload: Workload; readonly words: readonly string[] } {
  const at = Date.parse(now);
  const words: string[] = [];
  const tasks = workload.tasks.map((task) => {
    const { fixedStart, state, name } = task;
    const waits = state === 'waiting' || state === 'paused';
    if (fixedStart === null || !waits || Date.parse(fixedStart) >= at) return task;
    const when = localWords(fixedStart, yard.timeZone);
    words.push(
      `"${name}" was fixed to begin ${when}, which has passed: it is planned as soon as it can be.`,
    );
    return { ...task, fixedStart: null };
  });
  return words.length === 0 ? { workload, words } : { workload: { ...workload, tasks }, words };
}
