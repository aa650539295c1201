import type { CompiledActivity } from '../compiled/compiled.ts';
import type { CrewOption } from '../compiled/crews.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import type { WorkTable } from '../compiled/spans.ts';

/**
 * An activity done in some mode by some crew, wherever in time. Who looks for a place for it makes
 * one and fills it anew each time, so that the inner loop allocates nothing.
 */
export interface Work {
  activity: CompiledActivity;
  mode: CompiledMode;
  /** Index into the mode's crews, and that crew; -1 and null where nobody is needed. */
  crew: number;
  option: CrewOption | null;
  /** The time in which it can be done, and how much of that it takes. */
  table: WorkTable;
  minutes: number;
}

/** Where an activity is, and how it is done; `mode` -1 where it is nowhere. */
export interface Way {
  mode: number;
  crew: number;
  start: number;
  finish: number;
}
