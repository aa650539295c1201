/** From that wall time on those weekdays (1 Monday to 7 Sunday) the space is held at `celsius`. */
export interface SetPoint {
  readonly weekdays: readonly number[];
  /** 'HH:MM' by the yard's wall clock. */
  readonly from: string;
  readonly celsius: number;
}

/**
 * `heated`: the set-point that began last, whatever the weather; at once, or where `lagHours` is
 * given as a body with one heat store. `outdoors`: a body with one heat store, whose difference
 * from the outdoors (warmer by `warmerBy`) decays with the time constant `lagHours` (0: at once).
 */
export type Climate =
  | { readonly kind: 'heated'; readonly setPoints: readonly SetPoint[]; readonly lagHours?: number }
  | { readonly kind: 'outdoors'; readonly lagHours: number; readonly warmerBy: number };

/** Vapour follows the outdoors with a gain in hectopascal, or the relative humidity is held. */
export type Humidity =
  | { readonly kind: 'outdoors'; readonly addsHPa: number }
  | { readonly kind: 'held'; readonly percent: number };

/** Surfaces follow (1 - outdoorShare) of the air and outdoorShare of the outdoors, so many hours behind. */
export interface Skin {
  readonly outdoorShare: number;
  readonly lagHours: number;
}

/**
 * Something set up for a time, minutes from the origin, `from` included and `to` not. Heater:
 * at least `celsius` while it is on. Tent: `lagHours` and `warmerBy` in the place of the
 * space's own (null: as before). Dehumidifier: at most `percent`.
 */
export interface ClimateChange {
  readonly id: string;
  readonly name: string;
  readonly kind: 'heater' | 'tent' | 'dehumidifier';
  readonly from: number;
  readonly to: number;
  readonly celsius: number | null;
  readonly lagHours: number | null;
  readonly warmerBy: number | null;
  readonly percent: number | null;
  readonly watts: number;
  /** Cents for each day begun. */
  readonly costPerDay: number;
}

export interface ClimateSettings {
  readonly climate: Climate;
  /** Degrees that the forecast may be off either way; null: common practice for its kind. */
  readonly bandC: number | null;
  /** Null: nothing is known of its humidity. */
  readonly humidity: Humidity | null;
  /** Null: surfaces are as warm as the air. */
  readonly skin: Skin | null;
  readonly changes: readonly ClimateChange[];
}

/** Hourly outdoor table, the first value at minute `start` from the origin. */
export interface Weather {
  readonly start: number;
  readonly celsius: readonly number[];
  /** Relative humidity, percent, as many as temperatures; empty: not known. */
  readonly humidity: readonly number[];
}

/** What a thermometer said in a space: at a minute from the origin, or the mean of `minutes` from it on. */
export interface SpaceReading {
  readonly id: string;
  readonly space: string;
  readonly of: 'air' | 'surface';
  readonly at: number;
  readonly minutes: number;
  readonly celsius: number;
  /** Relative humidity of the air, percent. */
  readonly humidity: number | null;
}

/** What the yard's wall clock shows at a plan's minute; the calendar library makes one. */
export type WallClock = (minute: number) => {
  readonly weekday: number;
  readonly minuteOfDay: number;
};

/** The grid: from `first` (a multiple of `step`, at most 0) to the horizon or the point after it. */
export interface ClimateSpan {
  readonly first: number;
  readonly horizon: number;
  readonly step: number;
}
