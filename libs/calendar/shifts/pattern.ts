import type { LocalDate, LocalTime } from '../local-date.ts';

/** A pause inside a shift. A time before the shift's `from` is on the next day. */
export interface ShiftBreak {
  readonly from: LocalTime;
  readonly to: LocalTime;
}

/** Working time from one wall time to another; `to` at or before `from` is on the next day. */
export interface Shift {
  readonly from: LocalTime;
  readonly to: LocalTime;
  readonly breaks: readonly ShiftBreak[];
}

/** A shift of every week; `weekday` is the one it starts on, 1 Monday to 7 Sunday. */
export interface WeeklyShift extends Shift {
  readonly weekday: number;
}

export type ShiftPattern = readonly WeeklyShift[];

/** The shifts that start on that date instead of the pattern's; none is a day off. */
export interface ShiftException {
  readonly date: LocalDate;
  readonly shifts: readonly Shift[];
}
