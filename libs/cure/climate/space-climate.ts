import type { Span, TemperatureBand } from '../clock/series.ts';

/** Percent relative humidity, or degrees of dew point, on the grid of the temperatures. */
export type AirSeries = ArrayLike<number>;

/**
 * What a space is like over time, minutes from the origin on one grid of lines. Films follow
 * `surface`, cups the resin (of the place where it is kept) or `air`.
 */
export interface SpaceClimate {
  readonly air: TemperatureBand;
  readonly surface: TemperatureBand;
  /** Null: nothing is known of its humidity. */
  readonly humidity: AirSeries | null;
  readonly dewPointC: AirSeries | null;
  /** Where the outdoor table did not say, and a repeated day stands for it. */
  readonly assumed: readonly Span[];
}
