import { batchCount, batchLimit, potLife } from '#cure/batch/batch.ts';
import { reachedAt } from '#cure/clock/cure-clock.ts';
import { celsiusAt } from '#cure/clock/series.ts';
import type { Films } from '../compile/films.ts';
import type { Task } from '../workload/workload.ts';
import type { Material, Milestone } from '../yard/materials.ts';
import type { Reading } from './reading.ts';
import type { FilmMark, MixHint } from './sheet.ts';

const words: Record<Milestone, string> = {
  'pot-life': 'pot life ends',
  'open-time': 'open time ends',
  gel: 'gels',
  'tacky-opens': 'tacky from',
  'tacky-closes': 'tacky until',
  'bond-opens': 'bonds from',
  'bond-closes': 'bonds until',
  'tack-free': 'tack-free',
  'dust-safe': 'dust-safe',
  handle: 'may be handled',
  sandable: 'sandable',
  cured: 'cured',
};

/** Milestones that end something: they count from the first of the film, all others from the last. */
const closing: ReadonlySet<Milestone> = new Set<Milestone>([
  'pot-life',
  'open-time',
  'gel',
  'tacky-closes',
  'bond-closes',
]);

/** What a milestone means of a film, after "to be": `sandable`, `tacky`, `in its bond window`. */
export const becoming: Record<Milestone, string> = {
  'pot-life': 'past its pot life',
  'open-time': 'past its open time',
  gel: 'gelled',
  'tacky-opens': 'tacky',
  'tacky-closes': 'past its tack',
  'bond-opens': 'ready to bond',
  'bond-closes': 'past its bond window',
  'tack-free': 'tack-free',
  'dust-safe': 'dust-safe',
  handle: 'hard enough to handle',
  sandable: 'sandable',
  cured: 'cured',
};

/** The film of a wet task laid from `start` to `finish`: every milestone on its sheet but the cup's. */
export function filmOf(
  task: Task,
  material: Material,
  start: number,
  finish: number,
  { films, whereabouts, problem: { horizon }, at }: Reading,
): FilmMark[] {
  const marks = material.milestones.flatMap(({ milestone }) => {
    if (milestone === 'pot-life') return [];
    const side = closing.has(milestone) ? 'close' : 'open';
    const clock = films.clock(material.id, milestone, side, whereabouts.ofFilm(task, milestone));
    const minute = reachedAt(clock, side === 'close' ? start : finish);
    return [{ milestone, minute: minute === null || minute > horizon ? Infinity : minute }];
  });
  marks.sort((a, b) => (a.minute === b.minute ? 0 : a.minute - b.minute));
  return marks.map(({ milestone, minute }) => ({
    milestone,
    words: words[milestone],
    when: minute === Infinity ? null : at.when(minute),
  }));
}

/** Pot life where and when the task starts; null for a sheet without it or outside the material's limits. */
export function mixOf(
  task: Task,
  material: Material,
  start: number,
  finish: number,
  films: Films,
): MixHint | null {
  const celsius = celsiusAt(films.series(task.space), start);
  const minutes = potLife(films.material(material.id), celsius);
  if (minutes === null) return null;
  return {
    celsius: Math.round(celsius * 10) / 10,
    potLifeMinutes: Math.floor(minutes),
    useWithinMinutes: batchLimit(minutes),
    batches: Math.max(1, batchCount(finish - start, minutes)),
    cautions: material.cautions,
  };
}
