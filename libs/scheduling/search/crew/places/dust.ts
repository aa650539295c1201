import {
  addAir,
  clearAir,
  firstMet,
  firstMetOutside,
  met,
  metOutside,
  removeAir,
  type Air,
} from './air.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { lastOpening } from '../compiled/inverse.ts';
import type { CompiledMode } from '../compiled/mode.ts';
import { spanAfter, type Spans } from '../compiled/spans.ts';
import { crewOf, type State } from '../state/state.ts';
import type { Work } from '../state/work.ts';

/** Until when work of this finish may meet no dust where it is done: wet itself, or a plain surface. */
export function sensitiveUntil(
  compiled: Compiled,
  a: number,
  mode: CompiledMode,
  finish: number,
): number {
  const { surfaces } = compiled.activities[a];
  if (surfaces.length === 0) return mode.wet ? finish : -Infinity;
  const until = lastOpening(compiled.problem, surfaces, mode.index, finish);
  return mode.wet ? Math.max(until, finish) : until;
}

type Change = (air: Air, start: number, end: number) => void;

/** Adds or takes back a span of dust wherever it goes; what barriers keep out is seen to when it is looked for. */
function drift(
  compiled: Compiled,
  state: State,
  space: number,
  start: number,
  end: number,
  change: Change,
): void {
  for (const { space: into, gate } of compiled.drift.reach[space])
    change(gate < 0 ? state.dust[into] : state.gates[gate], start, end);
}

/** The working time within which placed work pauses, null where it is in one piece. */
function pausing(compiled: Compiled, state: State, a: number, mode: CompiledMode): Spans | null {
  if (!mode.pauses || compiled.activities[a].frozen !== null) return null;
  return (crewOf(compiled, state, a)?.table ?? mode.table).work;
}

/** The dust of placed work, each working span with its settling. */
function pollute(
  compiled: Compiled,
  state: State,
  a: number,
  mode: CompiledMode,
  change: Change,
): void {
  const s = state.start[a];
  const f = state.finish[a];
  const { settling } = compiled.problem.spaces[mode.space];
  const work = pausing(compiled, state, a, mode);
  if (work === null) {
    drift(compiled, state, mode.space, s, f + settling, change);
    return;
  }
  for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1) {
    const start = Math.max(s, work.starts[i]);
    drift(compiled, state, mode.space, start, Math.min(f, work.ends[i]) + settling, change);
  }
}

function stir(
  compiled: Compiled,
  state: State,
  a: number,
  mode: CompiledMode,
  change: Change,
): void {
  const s = state.start[a];
  const f = state.finish[a];
  if (mode.dusty && f > s) pollute(compiled, state, a, mode, change);
  if (!mode.sensitive) return;
  const until = sensitiveUntil(compiled, a, mode, f);
  if (until > s) change(state.open[mode.space], s, until);
}

/** Adds what placed work does to the air where it is done: its dust, and what is wet or open there; its films apart. */
export function breathe(compiled: Compiled, state: State, a: number, mode: CompiledMode): void {
  stir(compiled, state, a, mode, addAir);
}

/** Takes back what `breathe` added. */
export function unbreathe(compiled: Compiled, state: State, a: number, mode: CompiledMode): void {
  stir(compiled, state, a, mode, removeAir);
}

/** The end of the first dust that [start, end) in a space meets, -1 where there is none. */
export function dustMet(
  { drift: { gatesInto, gates } }: Compiled,
  state: State,
  space: number,
  start: number,
  end: number,
): number {
  const at = met(state.dust[space], start, end);
  if (at >= 0) return at;
  for (const gate of gatesInto[space]) {
    const other = metOutside(state.gates[gate], state.closed[gates[gate].barrier], start, end);
    if (other >= 0) return other;
  }
  return -1;
}

/** When dust first comes into [start, end) of a space, Infinity where none does. */
export function firstDust(
  { drift: { gatesInto, gates } }: Compiled,
  state: State,
  space: number,
  start: number,
  end: number,
): number {
  let first = firstMet(state.dust[space], start, end);
  for (const gate of gatesInto[space]) {
    const closed = state.closed[gates[gate].barrier];
    first = Math.min(first, firstMetOutside(state.gates[gate], closed, start, end));
  }
  return first;
}

/** The end of what dust made in [start, end) would meet, or the moment a barrier closes on it; -1 where nothing. */
function reached(
  { drift: { reach, gates } }: Compiled,
  state: State,
  mode: CompiledMode,
  start: number,
  end: number,
): number {
  const reaches = reach[mode.space];
  for (let i = 0; i < reaches.length; i += 1) {
    const { space, gate } = reaches[i];
    const open = state.open[space];
    if (open.count === 0) continue;
    const at =
      gate < 0
        ? met(open, start, end)
        : metOutside(open, state.closed[gates[gate].barrier], start, end);
    if (at >= 0) return at;
  }
  return -1;
}

/**
 * When dusty work in [s, f) could start past what its last working span meets; -1 where none meets
 * anything. Work that starts later finishes no earlier, so that until that moment it would still stir
 * up dust there.
 */
export function dustConflict(
  compiled: Compiled,
  state: State,
  { mode, table }: Work,
  s: number,
  f: number,
): number {
  const { settling } = compiled.problem.spaces[mode.space];
  if (!mode.pauses) return reached(compiled, state, mode, s, f + settling);
  const { work } = table;
  const first = spanAfter(work, s);
  let i = first;
  while (i < work.count && work.starts[i] < f) i += 1;
  for (i -= 1; i >= first; i -= 1) {
    const segmentEnd = Math.min(f, work.ends[i]);
    const end = reached(compiled, state, mode, Math.max(s, work.starts[i]), segmentEnd + settling);
    // A start after this segment may let the surface close during the pause.
    if (end >= 0) return Math.min(end, segmentEnd);
  }
  return -1;
}

/** A barrier is closed from the finish of an act that closes it to the start of the next act. */
export function closeBarrier(compiled: Compiled, state: State, barrier: number): void {
  const closed = state.closed[barrier];
  clearAir(closed);
  const order = state.acts[barrier].toSorted((x, y) => state.start[x] - state.start[y]);
  let from = compiled.problem.barriers[barrier].closed ? -(2 ** 30) : Infinity;
  for (const a of order) {
    if (from < state.start[a]) addAir(closed, from, state.start[a]);
    const mode = compiled.activities[a].modes[state.mode[a]];
    from = mode.closes ? state.finish[a] : Infinity;
  }
  if (from < Infinity) addAir(closed, from, 2 ** 30);
}
