import type { TaskLink } from '#planning/workload/workload.ts';
import { bedBelow, bedOn, holdOn, nextCoat, type Bed, type Hold } from './bed.ts';
import type { Copies } from './copies.ts';
import { grindable, isWet, sheetOf, type Wet } from './films.ts';
import {
  between,
  chained,
  cuttingBack,
  onto,
  scraping,
  wiping,
  type Chain,
  type Ground,
} from './ground-up.ts';
import type { Plight } from './plight.ts';
import { order } from './preparing.ts';
import { nextOver, type PartWork } from './redone.ts';

/** The preparation of the film that is laid first, and what it rests on. */
export interface Footing extends Chain {
  readonly bed: Bed | null;
  readonly hold: Hold | null;
}

const goesStraightOn = (work: PartWork, film: Wet, next: Wet, copies: Copies): boolean =>
  next.state === 'waiting'
    ? work.from(film.id).some(({ to }) => to === next.id)
    : !copies.follows.has(next.id);

export function footingOf(plight: Plight, ground: Ground, copies: Copies): Footing {
  const { task, nature, cut, work, fallen } = plight;
  const { yard, part } = ground;
  if (!isWet(task) || nature.depth === 'work')
    return { tasks: [], links: [], covers: [], bed: null, hold: null };
  const bed = nature.depth === 'film' ? bedBelow(yard, part, work, task) : bedOn(yard, task);
  const next = nature.depth === 'face' ? (fallen.find(isWet) ?? nextOver(work, task)) : task;
  const hold = next === null ? null : holdOn(bed, nextCoat(yard, next));
  const coat = next === null ? null : (copies.idOf.get(next.id) ?? next.id);
  // Dry work between the two, done again or still to come, prepares for it by itself.
  const bare = next === task || next === null || goesStraightOn(work, task, next, copies);
  const own = next !== null && coat !== null && bare;
  const wipe = own && hold !== null ? wiping(ground, task, coat, hold) : null;
  const { tasks, links } = chained([
    ...(nature.soft ? [scraping(ground, task)] : []),
    cuttingBack(ground, task, cut, bed, hold),
    ...(wipe === null ? [] : [wipe]),
  ]);
  const [first] = tasks;
  const films = [...new Set<Wet>([task, ...cut, ...(bed.film === null ? [] : [bed.film])])];
  const hardened = films.map((film) => {
    const soft = nature.soft && film === task;
    const opens = soft ? undefined : grindable(sheetOf(yard, film));
    const before = soft || !nature.soft ? first : tasks[1];
    return order(`${film.id}..${before.id}`, film.id, before.id, opens);
  });
  const waited: TaskLink[] =
    hold === null || hold.waits === null || bed.film === null || coat === null
      ? []
      : [order(`${bed.film.id}..${coat}-${ground.mark}`, bed.film.id, coat, hold.waits)];
  const laid = own && hold !== null ? onto(tasks, coat, hold) : [];
  const dusty = tasks.find(({ air }) => air === 'dusty');
  const stays = nature.depth === 'film' ? bed.film : task;
  const covers = stays === null || dusty === undefined ? [] : [{ task: stays.id, by: dusty.id }];
  return { tasks, links: [...hardened, ...links, ...laid, ...waited], covers, bed, hold };
}

/** Films that are laid again and that nothing of what is done again leads to: keyed on the one below. */
export function entries({ again, task }: Plight, ground: Ground, copies: Copies): Chain[] {
  const films = again.filter(isWet);
  return films.flatMap((film, k): Chain[] => {
    if (k === 0 || film === task || copies.follows.has(film.id)) return [];
    const [lower, upper] = [films[k - 1], copies.idOf.get(film.id)];
    const lowerId = copies.idOf.get(lower.id);
    if (upper === undefined || lowerId === undefined) return [];
    return [between(ground, lower, lowerId, film, upper)];
  });
}

/** What is dry and led to by nothing comes after what is done first. */
export function dryStarts({ again, task }: Plight, copies: Copies, footing: Footing): TaskLink[] {
  const first = footing.tasks.at(-1)?.id ?? copies.idOf.get(task.id);
  const film = copies.idOf.get(task.id);
  return again.flatMap((one) => {
    const id = copies.idOf.get(one.id);
    if (isWet(one) || one === task || copies.follows.has(one.id) || id === undefined) return [];
    // A look has to wait for what is to be looked at.
    const from = one.skill === null ? (film ?? first) : first;
    return from === undefined ? [] : [order(`${from}..${id}`, from, id)];
  });
}
