import { DomainError, fault } from '#kernel/error.ts';
import { filmsOf, type Films } from '../compile/films/films.ts';
import { frameOf, type Frame } from '../compile/frame/time.ts';
import { moments, type Moments } from '../decode/reading/moments.ts';
import type { Material } from '../yard/materials.ts';
import type { Space } from '../yard/spaces.ts';
import type { Yard } from '../yard/yard.ts';

/** Climates, materials and cure clocks of a yard over a stretch of time that is asked about. */
export interface Around {
  readonly frame: Frame;
  readonly films: Films;
  readonly at: Moments;
}

const HOUR_MS = 3_600_000;
const DAY = 1440;

/** What a question is about: climates and sheets of anything else are not worked out. */
export interface Subject {
  readonly spaces: readonly string[];
  readonly materials: readonly string[];
}

function about(yard: Yard, subject: Subject): Yard {
  const materials = yard.materials.filter(({ id }) => subject.materials.includes(id));
  const observations = yard.observations.filter(({ material }) =>
    subject.materials.includes(material),
  );
  const spaces = new Set([
    ...subject.spaces,
    ...materials.flatMap(({ keptIn }) => keptIn ?? []),
    ...observations.map(({ space }) => space),
  ]);
  return {
    ...yard,
    materials,
    observations,
    spaces: yard.spaces.filter(({ id }) => spaces.has(id)),
  };
}

/**
 * From the full hour before an instant, for so many days; minute 0 is that hour. The day before it
 * is known as well.
 */
export function around(yard: Yard, from: string, days: number, subject: Subject): Around {
  const origin = new Date(Math.floor(Date.parse(from) / HOUR_MS) * HOUR_MS).toISOString();
  const seen = { ...about(yard, subject), horizonDays: days };
  const frame = frameOf(seen, origin, undefined);
  const films = filmsOf(seen, { tasks: [], links: [], choices: [] }, frame, -DAY);
  return { frame, films, at: moments(frame.origin, yard.timeZone) };
}

/** Whether, between two minutes, a space or the store of a material hangs on weather that is not known. */
export function assumedIn(
  { films }: Around,
  yard: Yard,
  { spaces, materials }: Subject,
  [from, until]: readonly [number, number],
): boolean {
  const stores = materials.flatMap((id) => askedMaterial(yard, id).keptIn ?? []);
  return [...spaces, ...stores].some((place) =>
    films.climate(place).assumed.some(({ start, end }) => start <= until && from < end),
  );
}

/**
 * Throws yard.reference, with `path` as the place in what was asked, and input.field for a space
 * of which no climate can be reckoned.
 */
export function askedSpace(yard: Yard, id: string, path = 'space'): Space {
  const space = yard.spaces.find((one) => one.id === id);
  if (space === undefined) throw unknown(path, 'space', id);
  const byWeather = space.climate.kind === 'outdoors' || (space.skin?.outdoorShare ?? 0) > 0;
  if (!byWeather || yard.outdoor !== null) return space;
  const message = 'It follows the outdoors, of which the yard says nothing';
  const found = fault('input.field', path, message, {
    value: id,
    cure: 'Enter the outdoor temperatures, or give the space a heated climate.',
  });
  throw new DomainError(found.code, `${path}: ${message}`, { faults: [found] });
}

/** As `askedSpace`. */
export function askedMaterial(yard: Yard, id: string, path = 'material'): Material {
  const material = yard.materials.find((one) => one.id === id);
  if (material === undefined) throw unknown(path, 'material', id);
  return material;
}

function unknown(path: string, kind: string, id: string): DomainError {
  const found = fault('yard.reference', path, `There is no ${kind} "${id}" in the yard`, {
    value: id,
  });
  return new DomainError(found.code, `${path}: ${found.message}`, { faults: [found] });
}

/** Throws input.field where `until` is before `from`, or more than so many days after it. */
export function assertSpan(
  from: string,
  until: string,
  days: number,
  [fromName, untilName]: readonly [string, string],
): void {
  const length = Date.parse(until) - Date.parse(from);
  const wrong =
    length < 0
      ? `is before ${fromName}, ${from}`
      : length > days * 24 * HOUR_MS
        ? `is more than ${String(days)} days after ${fromName}, ${from}`
        : null;
  if (wrong === null) return;
  const found = fault('input.field', untilName, wrong, {
    value: until,
    cure: `Give a moment within ${String(days)} days after ${fromName}.`,
  });
  throw new DomainError(found.code, `${untilName}: ${wrong}`, { faults: [found] });
}
