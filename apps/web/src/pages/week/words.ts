import { clock, dateIn, dayAndClock, span } from '../../show/time.ts';
import { film } from '../../texts/film.ts';
import { week as texts } from '../../texts/week.ts';
import type { Lag } from './holding.ts';
import type { Now } from './lives.ts';
import type { View } from './lanes.ts';
import type { Model, Work } from './model.ts';

/** `Tue 1 Dec, 08:00 to 10:30`, with the second day where it is another. */
export function timesOf({ from, until }: Pick<Work, 'from' | 'until'>, zone: string): string {
  const isOneDay = dateIn(from, zone) === dateIn(until, zone);
  return texts.times(
    dayAndClock(from, zone),
    isOneDay ? clock(until, zone) : dayAndClock(until, zone),
  );
}

export const stateWords = (now: Now, personName: Model['personName']): string =>
  texts.stateBy(texts.state[now.state], now.crew.map(personName));

/** Of who, where and on what, as far as its lane does not say it. */
export const whereWords = ({ task, boat, crew }: Work, view: View): string =>
  view === 'people' ? texts.of(task.part, boat) : texts.plank([crew.join(', '), task.part]);

/** All that a plank says to whoever cannot see it; first what can be read on it, in that order. */
export function plankWords(
  work: Work,
  { now, lag }: { readonly now: Now; readonly lag: Lag | null },
  model: Model,
  zone: string,
  view: View,
): string {
  const { task, crew, boat, space } = work;
  return texts.plank([
    now.state === 'done'
      ? texts.checked(task.name)
      : lag === null
        ? task.name
        : texts.lagging(task.name),
    whereWords(work, view),
    ...(view === 'people' ? [] : [boat]),
    timesOf(work, zone),
    ...(view === 'people' ? [crew.join(', ')] : []),
    space,
    texts.air[task.air],
    stateWords(now, model.personName),
    lag === null ? '' : texts.lagWords[lag],
    ...windowWords(work, zone),
  ]);
}

/** When the film begins to be what, after it was laid. */
export const filmWords = ({ stretches }: Work, zone: string): string[] =>
  stretches
    .filter(({ from }) => from !== Infinity)
    .map(({ stage, from }) => texts.stageFrom(film.stage[stage], dayAndClock(from, zone)));

/** What waits for the film, and when it may come. */
export const windowWords = ({ windows }: Work, zone: string): string[] =>
  windows.map(({ toName, opens, closes }) =>
    texts.window(
      toName,
      opens === null ? null : dayAndClock(opens, zone),
      closes === null ? null : dayAndClock(closes, zone),
    ),
  );

export const floatWords = ({ task }: Work): string => {
  if (task.floatMinutes === null) return '';
  return task.floatMinutes === 0 ? texts.noFloat : texts.float(span(task.floatMinutes));
};
