import type { MissingLine } from '#cure/material/material.ts';
import { windowFor } from '#cure/windows/window.ts';
import { marksOf } from '../decode/reading/film.ts';
import type { FilmMark, When } from '../decode/sheet.ts';
import { spaceSchema } from '../yard/spaces.ts';
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

/** Where a film is: in a space of the yard, or where it is always so warm. */
export type FilmPlace = { readonly space: string } | { readonly celsius: number };

/** A film laid somewhere, the first of it at one instant and the last at another. */
export interface FilmQuestion {
  readonly material: string;
  readonly place: FilmPlace;
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
export function filmTimes(own: Yard, asked: FilmQuestion): FilmTimes {
  const { material, place, laidFrom, laidUntil } = asked;
  askedMaterial(own, material);
  if ('space' in place) askedSpace(own, place.space);
  assertSpan(laidFrom, laidUntil, LONGEST_DAYS, ['laidFrom', 'laidUntil']);
  const yard = 'space' in place ? own : withConstant(own, place.celsius);
  const subject = { spaces: ['space' in place ? place.space : CONSTANT], materials: [material] };
  return timesOf(yard, around(yard, laidFrom, SIGHT_DAYS, subject), subject, asked);
}

/** No id of a yard: it has a capital in it. */
const CONSTANT = 'Constant';

/** The yard with a space in it that is always so warm, to the degree. */
function withConstant(yard: Yard, celsius: number): Yard {
  const setPoints = [{ weekdays: [1], from: '00:00', celsius }];
  const space = spaceSchema.parse({
    id: 'constant',
    name: 'Constant',
    climate: { kind: 'heated', setPoints, lagHours: 0 },
    bandC: 0,
    room: 1,
    dustReaches: [],
    settlingMinutes: 0,
  });
  return { ...yard, spaces: [...yard.spaces, { ...space, id: CONSTANT }] };
}

function timesOf(yard: Yard, seenFrom: Around, subject: Subject, asked: FilmQuestion): FilmTimes {
  const { films, frame, at } = seenFrom;
  const { material, laidFrom, laidUntil } = asked;
  const [space] = subject.spaces;
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
