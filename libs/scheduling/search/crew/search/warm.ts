import type { Plan } from '../../../model/plan.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { copyGenome, emptyGenome, type Genome } from '../decode/genome.ts';

/**
 * Genomes from a plan: first one that gives the plan itself, as far as it still holds (every
 * activity waits for its start, with its crew), then without the waits, then with free crews too.
 */
export function warmGenomes(compiled: Compiled, plan: Plan): Genome[] {
  const same = emptyGenome(compiled);
  same.keys.fill(compiled.horizon);
  plan.branches.forEach((branch, c) => {
    if (c < compiled.branches.length && compiled.branches[c].includes(branch))
      same.branch[c] = branch;
  });
  for (const { activity, mode, start, crew, overtime } of plan.placements) {
    if (
      activity >= compiled.activities.length ||
      mode >= compiled.activities[activity].modes.length
    )
      continue;
    const named = crew
      .map((c) => c.builder)
      .sort((a, b) => a - b)
      .join();
    const { crews } = compiled.activities[activity].modes[mode];
    same.keys[activity] = start;
    same.wait[activity] = start;
    same.mode[activity] = mode;
    same.crew[activity] = (crews ?? []).findIndex(
      (o) => o.overtime === overtime && o.builders.toSorted((a, b) => a - b).join() === named,
    );
  }
  const ordered = emptyGenome(compiled);
  copyGenome(same, ordered);
  ordered.wait.fill(0);
  const free = emptyGenome(compiled);
  copyGenome(ordered, free);
  free.crew.fill(-1);
  return [same, ordered, free];
}
