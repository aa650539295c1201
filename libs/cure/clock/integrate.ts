import { DomainError } from '#kernel/error.ts';

import type { Rate } from '../material/rate.ts';
import type { EquivalentAge } from './equivalent-age.ts';
import type { TemperatureSeries } from './series.ts';

/** Distance of the outer two of the three Gauss-Legendre points on [0, 1] from the middle one. */
const OUTER = Math.sqrt(0.15);

/**
 * Rates in one piece differ by at most about this factor. Where the logarithm of the rate is
 * straight and changes by D, the sum over a whole piece is off by 5e-7 D^6 of itself and that
 * over a part of it by 4e-4 D^3: with D = 0.1 within a millionth of a minute in a piece of ten.
 */
const STEEPEST = 1.1;

/** Minutes; a jump that no kink announced is not pursued further. */
const NARROWEST = 1e-6;

/** Columns for so many pieces in one stretch of memory, of which only what is written is ever used. */
function columnsFor(size: number): readonly Float64Array[] {
  const rows = size + 1;
  const memory = new Float64Array(5 * rows);
  return [0, 1, 2, 3, 4].map((column) => memory.subarray(column * rows, (column + 1) * rows));
}

class Pieces {
  private count = 0;
  private at: Float64Array;
  private ages: Float64Array;
  private rates: Float64Array;
  private tilt: Float64Array;
  private bend: Float64Array;
  /** The temperature of the last piece, where it has one only. */
  private still = Number.NaN;
  private readonly rate: Rate;

  constructor(rate: Rate, start: number, expected: number) {
    this.rate = rate;
    [this.at, this.ages, this.rates, this.tilt, this.bend] = columnsFor(expected + 64);
    this.at[0] = start;
  }

  private grow(): void {
    const old = [this.at, this.ages, this.rates, this.tilt, this.bend];
    const columns = columnsFor(2 * this.rates.length);
    columns.forEach((column, k) => {
      column.set(old[k]);
    });
    [this.at, this.ages, this.rates, this.tilt, this.bend] = columns;
  }

  /** To `until`, with x from 0 to 1 the rate is middle + tilt (x - 1/2) + bend (x - 1/2)^2. */
  private add(until: number, middle: number, tilt: number, bend: number): void {
    const k = this.count;
    if (k + 1 === this.at.length) this.grow();
    const width = until - this.at[k];
    this.ages[k + 1] = this.ages[k] + width * (middle + bend / 12);
    this.at[k + 1] = until;
    this.rates[k] = middle - tilt / 2 + bend / 4;
    this.tilt[k] = (tilt - bend) / (2 * width);
    this.bend[k] = bend / (3 * width * width);
    this.count = k + 1;
    this.still = Number.NaN;
  }

  /** From here at one rate: however many steps such a stretch has, it is one piece. */
  private level(until: number, rate: number): void {
    const k = this.count - 1;
    if (k >= 0 && this.rates[k] === rate && this.tilt[k] === 0 && this.bend[k] === 0)
      this.count = k;
    this.add(until, rate, 0, 0);
  }

  /** From here at one temperature. */
  flat(until: number, celsius: number): void {
    this.level(until, this.still === celsius ? this.rates[this.count - 1] : this.rate(celsius));
    this.still = celsius;
  }

  /** From here straight from `a` to `b` degrees, without a kink between. */
  smooth(until: number, a: number, b: number): void {
    const from = this.at[this.count];
    if (!(until > from)) return;
    if (a === b) {
      this.flat(until, a);
      return;
    }
    const centre = (a + b) / 2;
    const off = OUTER * (b - a);
    const middle = this.rate(centre);
    const first = this.rate(centre - off);
    const third = this.rate(centre + off);
    const steep = Math.max(first, third) > STEEPEST * Math.min(first, third);
    if (steep && until - from > NARROWEST) {
      this.smooth((from + until) / 2, a, centre);
      this.smooth(until, centre, b);
    } else if (first === middle && third === middle) this.level(until, middle);
    else {
      const bend = (first - 2 * middle + third) / (2 * OUTER * OUTER);
      this.add(until, middle, (third - first) / (2 * OUTER), bend);
    }
  }

  done(before: number, after: number): EquivalentAge {
    const { count } = this;
    return {
      at: this.at.subarray(0, count + 1),
      ages: this.ages.subarray(0, count + 1),
      rate: this.rates.subarray(0, count),
      tilt: this.tilt.subarray(0, count),
      bend: this.bend.subarray(0, count),
      before,
      after,
    };
  }
}

/** The history as lines, from its second moment on, each cut at the kinks that it crosses. */
function addLines(pieces: Pieces, series: TemperatureSeries, kinks: readonly number[]): void {
  const { start, step, celsius } = series;
  let from = celsius[0];
  // How many kinks are colder than where the line is.
  let colder = 0;
  while (colder < kinks.length && kinks[colder] < from) colder++;
  for (let k = 1; k < celsius.length; k++) {
    const to = celsius[k];
    const until = start + k * step;
    let a = from;
    for (; to > from && colder < kinks.length && kinks[colder] < to; colder++) {
      const kink = kinks[colder];
      if (kink === from) continue;
      pieces.smooth(until - (step * (to - kink)) / (to - from), a, kink);
      a = kink;
    }
    for (; to < from && colder > 0 && kinks[colder - 1] >= to; colder--) {
      const kink = kinks[colder - 1];
      if (kink === to) continue;
      pieces.smooth(until - (step * (to - kink)) / (to - from), a, kink);
      a = kink;
    }
    pieces.smooth(until, a, to);
    from = to;
  }
}

/**
 * The integral of a rate over a history. `kinks` are the temperatures, ascending, at which the
 * rate jumps or bends: a line of the history is cut where it crosses one, so that a cure
 * stalls at the very moment at which the temperature passes the minimum.
 * Throws `input.field` for a history without a single value.
 */
export function equivalentAge(
  rate: Rate,
  series: TemperatureSeries,
  kinks: readonly number[] = [],
): EquivalentAge {
  const { shape, start, step, celsius } = series;
  const n = celsius.length;
  if (n === 0) throw new DomainError('input.field', 'A temperature history has no values');
  const before = rate(celsius[0]);
  const after = rate(celsius[n - 1]);
  if (shape === 'lines' && n > 1) {
    const pieces = new Pieces(rate, start, n);
    addLines(pieces, series, kinks);
    return pieces.done(before, after);
  }
  const pieces = new Pieces(rate, start, 0);
  for (let k = 0; k < n; k++) {
    pieces.flat(start + (k + 1) * step, celsius[k]);
  }
  return pieces.done(before, after);
}
