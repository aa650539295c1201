import { reachedAt } from '#cure/clock/cure-clock.ts';
import { MILESTONES, type Milestone, type Side } from '#cure/material/material.ts';
import type { Films } from '../../compile/films/films.ts';
import type { Task } from '../../workload/workload.ts';
import type { Moments } from './moments.ts';
import type { Ground } from './reading.ts';
import type { FilmMark, When } from '../sheet.ts';

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
export const closing: ReadonlySet<Milestone> = new Set<Milestone>([
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

export interface MarksInput {
  readonly films: Films;
  readonly material: string;
  /** Where a film may be before it reaches a milestone. */
  readonly places: (milestone: Milestone) => readonly string[];
  /** When the first and the last of it is laid. */
  readonly start: number;
  readonly finish: number;
  readonly horizon: number;
  readonly at: Moments;
}

/**
 * Every milestone that the material's sheet has of a film but the cup's, by the moment that a
 * plan keeps to: the earliest of an end, of which the first of the film counts; the latest of
 * all others, of which the last does.
 */
export function marksOf(input: MarksInput): FilmMark[] {
  const { films, material, places, start, finish, horizon, at } = input;
  const sheet = films.material(material);
  const when = (minute: number): When | null => (minute === Infinity ? null : at.when(minute));
  const marks = MILESTONES.flatMap((milestone) => {
    if (milestone === 'pot-life' || sheet.milestones[milestone] === undefined) return [];
    const reached = (side: Side, laid: number): number => {
      const minute = reachedAt(films.clock(material, milestone, side, places(milestone)), laid);
      return minute === null || minute > horizon ? Infinity : minute;
    };
    const [earliest, latest] = [reached('close', start), reached('open', finish)];
    return [{ milestone, earliest, latest, safe: closing.has(milestone) ? earliest : latest }];
  });
  marks.sort((a, b) => (a.safe === b.safe ? 0 : a.safe - b.safe));
  return marks.map(({ milestone, earliest, latest, safe }) => ({
    milestone,
    words: words[milestone],
    when: when(safe),
    earliest: when(earliest),
    latest: when(latest),
    touchTest: sheet.touchTests.find((test) => test.milestone === milestone)?.words ?? null,
  }));
}

/** The film of a wet task laid from `start` to `finish`. */
export function filmOf(
  task: Task,
  material: string,
  start: number,
  finish: number,
  { films, whereabouts, problem: { horizon }, at }: Ground,
): FilmMark[] {
  const places = (milestone: Milestone) => whereabouts.ofFilm(task, milestone);
  return marksOf({ films, material, places, start, finish, horizon, at });
}
