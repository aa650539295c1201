import type { MissingLine } from '#cure/material/material.ts';
import { windowFor } from '#cure/windows/window.ts';
import { marksOf } from '../decode/reading/film.ts';
import type { FilmMark, When } from '../decode/sheet.ts';
import type { Yard } from '../yard/yard.ts';
import {
  around,
  askedMaterial,
  askedSpace,
  assertSpan,
  assumedIn,
  type Around,
  type Subject,
} from './around.ts';

/** A film laid in a space, the first of it at one instant and the last at another. */
export interface FilmQuestion {
  readonly material: string;
  readonly space: string;
  readonly laidFrom: string;
  readonly laidUntil: string;
}

/** From the latest that it may open to the earliest that it may close; null: not within sight. */
export interface FilmWindow {
  readonly kind: 'bond' | 'tack';
  readonly opens: When | null;
  readonly closes: When | null;
  /** No moment is safe for the whole film. */
  readonly empty: boolean;
}

export interface FilmTimes {
  /** In order of time; what is not within sight comes last. */
  readonly marks: readonly FilmMark[];
  readonly windows: readonly FilmWindow[];
  /** Milestones that the sheet has no number for. */
  readonly missing: readonly MissingLine[];
  /** Until the last of the marks the outdoor table does not say it all: a day is repeated. */
  readonly assumed: boolean;
  /** Beyond it nothing was looked at. */
  readonly horizon: When;
}

/** Laid over a longer time it is no film but several. */
const LONGEST_DAYS = 14;
/** Beyond the slowest full cure that a sheet of the catalogue or of the seeds has. */
const SIGHT_DAYS = 60;

const WINDOWS = [
  ['tack', 'tacky-opens', 'tacky-closes'],
  ['bond', 'bond-opens', 'bond-closes'],
] as const;

/**
 * When a film reaches its milestones, by the climate of its space as it is known now. Throws
 * yard.reference for a space or material that the yard has not, input.field for a span that is
 * no span.
 */
export function filmTimes(yard: Yard, asked: FilmQuestion): FilmTimes {
  const { material, space, laidFrom, laidUntil } = asked;
  askedMaterial(yard, material);
  askedSpace(yard, space);
  assertSpan(laidFrom, laidUntil, LONGEST_DAYS, ['laidFrom', 'laidUntil']);
  const subject = { spaces: [space], materials: [material] };
  return timesOf(yard, around(yard, laidFrom, SIGHT_DAYS, subject), subject, asked);
}

function timesOf(yard: Yard, seenFrom: Around, subject: Subject, asked: FilmQuestion): FilmTimes {
  const { films, frame, at } = seenFrom;
  const { material, space, laidFrom, laidUntil } = asked;
  const [start, finish] = [frame.minuteOf(laidFrom), frame.minuteOf(laidUntil)];
  const { horizon } = frame;
  const seen = (minute: number | null): When | null =>
    minute === null || minute > horizon ? null : at.when(minute);
  const sheet = films.material(material);
  const windows = WINDOWS.flatMap(([kind, opens, closes]): FilmWindow[] => {
    if (sheet.milestones[opens] === undefined || sheet.milestones[closes] === undefined) return [];
    const found = windowFor(sheet, opens, closes, films.surface([space]), start, finish);
    return [{ kind, opens: seen(found.opens), closes: seen(found.closes), empty: found.empty }];
  });
  const places = () => [space];
  const marks = marksOf({ films, material, places, start, finish, horizon, at });
  const last = marks.reduce(
    (until, { when, latest }) =>
      when === null ? horizon : Math.max(until, frame.minuteOf((latest ?? when).at)),
    finish,
  );
  const assumed = assumedIn(seenFrom, yard, subject, [start, last]);
  return { marks, windows, missing: sheet.missing, assumed, horizon: at.when(horizon) };
}
