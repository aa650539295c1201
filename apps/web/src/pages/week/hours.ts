import { scaleLinear } from 'd3-scale';
import type { Picture } from './model.ts';
import { between, joined, type Span } from './spans.ts';

const hour = 3_600_000;
/** Hands rest for so long, or it is no night. */
const nightMs = 2 * hour;

/** When anybody works, or is planned to; what lies between is night, or a day off. */
export function workedHours(
  { people, tasks }: Pick<Picture, 'people' | 'tasks'>,
  whole: Span,
): Span[] {
  const spans = [...people.flatMap(({ hours }) => hours), ...tasks.flatMap((one) => one.segments)];
  const moments = spans.map(({ from, until }) => ({
    from: Math.max(Date.parse(from), whole.from),
    until: Math.min(Date.parse(until), whole.until),
  }));
  return joined(moments, nightMs);
}

/** A stretch in which hands rest. It is drawn narrower than it lasts. */
interface Rest extends Span {
  readonly left: number;
  readonly width: number;
}

export interface Hours {
  readonly whole: Span;
  readonly width: number;
  /** Where a moment lies, px; what lies outside is at the edge. */
  readonly at: (moment: number) => number;
  /** The moment that lies there. */
  readonly momentAt: (px: number) => number;
  readonly worked: readonly Span[];
  readonly rests: readonly Rest[];
  /** Px that an hour of work has. */
  readonly hourPx: number;
}

const restPx = ({ from, until }: Span): number => {
  const hours = (until - from) / hour;
  // A night is as wide as its label; a weekend somewhat more.
  return hours < 4 ? 18 : hours < 30 ? 34 : 58;
};

/** The narrowest hour that can still be read. */
const leastHourPx = 15;

/**
 * Time from left to right: an hour of work is so wide that all of it takes `room`, times `closer`;
 * nights and days off are compressed, since hands rest while films harden.
 */
export function hoursOf(
  worked: readonly Span[],
  whole: Span,
  { room, closer = 1 }: { readonly room: number; readonly closer?: number },
): Hours {
  const nights = between(worked, whole);
  const rest = nights.reduce((sum, night) => sum + restPx(night), 0);
  const hours = worked.reduce((sum, { from, until }) => sum + (until - from) / hour, 0);
  const fitting = hours === 0 ? leastHourPx : (room - rest) / hours;
  const hourPx = Math.max(leastHourPx, fitting) * closer;
  const moments = [whole.from];
  const places = [0];
  const parts = [...worked, ...nights].sort((a, b) => a.from - b.from);
  for (const part of parts) {
    const isNight = nights.includes(part);
    const width = isNight ? restPx(part) : ((part.until - part.from) / hour) * hourPx;
    moments.push(part.until);
    places.push((places.at(-1) ?? 0) + width);
  }
  const scale = scaleLinear(moments, places).clamp(true);
  const width = Math.ceil(places.at(-1) ?? 0);
  return {
    whole,
    width,
    hourPx,
    worked,
    at: (moment) => scale(moment),
    momentAt: (px) => scale.invert(px),
    rests: nights.map((night) => {
      const left = scale(night.from);
      return { ...night, left, width: scale(night.until) - left };
    }),
  };
}

/** Until when what is drawn at least so wide takes room. */
export const shownUntil = ({ at, momentAt }: Hours, { from, until }: Span, px: number): number =>
  Math.max(until, momentAt(at(from) + px));

/** What `14:00` takes. */
const tickPx = 46;

/** Whole hours of work to be written at the axis, as many as there is room for. */
export function ticksOf(
  { worked, hourPx, at }: Hours,
  minuteOf: (moment: number) => number,
): { readonly moment: number; readonly left: number }[] {
  const step = [1, 2, 3, 6].find((hours) => hours * hourPx >= tickPx) ?? 12;
  return worked.flatMap(({ from, until }) => {
    const out = [];
    // The first whole hour of the yard's clock, which may be apart from UTC's by a half.
    const first = from + ((60 - (minuteOf(from) % 60)) % 60) * 60_000;
    for (let moment = first; at(until) - at(moment) >= tickPx; moment += hour) {
      if (Math.floor(minuteOf(moment) / 60) % step === 0) out.push({ moment, left: at(moment) });
    }
    return out;
  });
}
