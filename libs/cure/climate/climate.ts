import { DomainError } from '#kernel/error.ts';

import type { Span, TemperatureSeries } from '../clock/series.ts';
import { outdoorOf, type Outdoor, type OutdoorReading } from './outdoor.ts';

/** From that wall time on those weekdays (1 Monday to 7 Sunday) the space is held at `celsius`. */
interface SetPoint {
  readonly weekdays: readonly number[];
  /** 'HH:MM' by the yard's wall clock. */
  readonly from: string;
  readonly celsius: number;
}

/**
 * `heated`: exactly the set-point that began last, whatever the weather.
 * `outdoors`: follows the outdoors as a body with one heat store: the difference decays with
 * the time constant `lagHours` (0: at once); `offsetC` is added to the result.
 */
export type Climate =
  | { readonly kind: 'heated'; readonly setPoints: readonly SetPoint[] }
  | { readonly kind: 'outdoors'; readonly lagHours: number; readonly offsetC: number };

/** What the yard's wall clock shows at a plan's minute; the calendar library makes one. */
export type WallClock = (minute: number) => {
  readonly weekday: number;
  readonly minuteOfDay: number;
};

/** A space's temperature, with the stretches for which the outdoor table did not say. */
export interface ClimateSeries extends TemperatureSeries {
  readonly assumed: readonly Span[];
}

const DAY = 1440;
const WEEK = 7 * DAY;
/** Time constants to run before minute 0, after which the unknown first difference is below 0.1 %. */
const SETTLED = 7;

function setPointAt(setPoints: readonly SetPoint[]): (weekMinute: number) => number {
  const changes = setPoints
    .flatMap(({ weekdays, from, celsius }) =>
      weekdays.map((weekday) => {
        const [hours, minutes] = from.split(':').map(Number);
        return { at: (weekday - 1) * DAY + hours * 60 + minutes, celsius };
      }),
    )
    .sort((a, b) => a.at - b.at);
  if (changes.length === 0 || changes.some(({ at }) => !(at >= 0 && at < WEEK))) {
    throw new DomainError('input.field', 'The heating schedule cannot be read', {
      cure: 'Give at least one set-point, with weekdays 1-7 and a time HH:MM.',
    });
  }
  return (weekMinute) =>
    (changes.findLast(({ at }) => at <= weekMinute) ?? changes[changes.length - 1]).celsius;
}

function heated(
  setPoints: readonly SetPoint[],
  wall: WallClock,
  n: number,
  step: number,
): ClimateSeries {
  const at = setPointAt(setPoints);
  const celsius = Float64Array.from({ length: n }, (_, k) => {
    const { weekday, minuteOfDay } = wall(k * step);
    return at((weekday - 1) * DAY + minuteOfDay);
  });
  return { start: 0, step, celsius, assumed: [] };
}

/**
 * Mean temperature in each step of a body that follows the outdoors, which is taken linear
 * within a step: dT/dt = (To - T)/tau then has an exact solution for its end and its mean.
 */
function following(
  outdoor: Outdoor,
  lagHours: number,
  offsetC: number,
  n: number,
  step: number,
): ClimateSeries {
  if (!(lagHours >= 0)) {
    throw new DomainError('input.field', `A lag of ${lagHours} hours is no lag`, {
      cure: 'Give the lag in hours, 0 or more.',
    });
  }
  const tau = lagHours * 60;
  const kept = tau > 0 ? Math.exp(-step / tau) : 0;
  const before = Math.ceil((SETTLED * tau) / step);
  const celsius = new Float64Array(n);
  let body = outdoor.celsius(-before * step);
  for (let k = -before; k < n; k++) {
    const from = outdoor.celsius(k * step);
    const rise = outdoor.celsius((k + 1) * step) - from;
    // In a steady ramp the body trails the outdoors by `behind`; the rest of the difference decays.
    const behind = (rise / step) * tau;
    const decaying = tau > 0 ? body - from + behind : 0;
    if (k >= 0)
      celsius[k] = from + rise / 2 - behind + (decaying * tau * (1 - kept)) / step + offsetC;
    body = from + rise - behind + decaying * kept;
  }
  const assumed: Span[] = [];
  for (let k = 0; k < n; k++) {
    if (outdoor.known(k * step) && outdoor.known((k + 1) * step)) continue;
    const last = assumed.at(-1);
    const span = { start: last?.end === k * step ? last.start : k * step, end: (k + 1) * step };
    if (last?.end === k * step) assumed[assumed.length - 1] = span;
    else assumed.push(span);
  }
  return { start: 0, step, celsius, assumed };
}

/**
 * A space's temperature from a plan's origin (ISO instant) over the horizon, in steps of
 * minutes; a set-point that changes inside a step counts from the next. A heated space reads
 * no outdoor table, one that follows the outdoors no wall clock. Throws `input.field` for a
 * schedule, a lag or an outdoor table that cannot be read.
 */
export function climateSeries(
  climate: Climate,
  outdoor: readonly OutdoorReading[],
  wall: WallClock,
  origin: string,
  horizonMinutes: number,
  step = 10,
): ClimateSeries {
  const n = Math.max(1, Math.ceil(horizonMinutes / step));
  if (climate.kind === 'heated') return heated(climate.setPoints, wall, n, step);
  return following(
    outdoorOf(outdoor, Date.parse(origin)),
    climate.lagHours,
    climate.offsetC,
    n,
    step,
  );
}
