import { airList, copyAir, type Air } from '../places/air.ts';
import { busyList, copyBusy, type BusyList } from './busy.ts';
import type { Compiled } from '../compiled/compiled.ts';
import type { CrewOption } from '../compiled/crews.ts';
import { copyProfile, profileOf, type Profile } from './profile.ts';
import { spanAfter } from '../compiled/spans.ts';

/** A partial plan that a decode builds up, and takes back last in, first out. */
export interface State {
  readonly busy: BusyList[];
  readonly profiles: Profile[];
  /** Dust that reaches a space. */
  readonly dust: Air[];
  /** What must not meet dust in a space. */
  readonly open: Air[];
  /** Dust that goes through a gate while its barrier is open. */
  readonly gates: Air[];
  /** When a barrier is closed, in order of time. */
  readonly closed: Air[];
  readonly placed: Uint8Array;
  readonly start: Int32Array;
  readonly finish: Int32Array;
  readonly mode: Int16Array;
  /** Index into the mode's crews, -1 where there are none or the work is frozen. */
  readonly crew: Int16Array;
  /** Index into the mode's list of slots, -1 where none is used. */
  readonly slot: Int16Array;
  /** 1 where the crew is booked in one span, 0 where by working spans. */
  readonly solid: Uint8Array;
  readonly stack: Int32Array;
  /** Position on the stack. */
  readonly depth: Int32Array;
  height: number;
  /** Places in time looked at so far, in all decodes: what the work of a look is counted in. */
  tries: number;
  /** The branches taken. */
  readonly branch: Int16Array;
  /** Placed activities on each part, and acts on each barrier, in the order of placing. */
  readonly onPart: number[][];
  readonly acts: number[][];
  /** By hold: until when the resource is taken, and until when it was kept for ends to come. */
  readonly heldTo: Float64Array;
  readonly heldOpen: Float64Array;
  /** By film: until when it is kept free of dust for covers to come. */
  readonly filmTo: Float64Array;
  /** By film: where it is in the lists of what is open, as flat space, start, end triples. */
  readonly filmSpans: number[][];
  /** Room for what one look counts: positions in busy lists, one builder, spans. */
  readonly cursor: Int32Array;
  readonly single: [number];
  readonly scratch: number[];
}

export function emptyState(compiled: Compiled): State {
  const { builders, resources, spaces, activities, parts, barriers, holds } = compiled.problem;
  const n = activities.length;
  return {
    busy: builders.map(busyList),
    profiles: resources.map(profileOf),
    dust: spaces.map(airList),
    open: spaces.map(airList),
    gates: compiled.drift.gates.map(airList),
    closed: barriers.map(airList),
    placed: new Uint8Array(n),
    start: new Int32Array(n),
    finish: new Int32Array(n),
    mode: new Int16Array(n),
    crew: new Int16Array(n).fill(-1),
    slot: new Int16Array(n).fill(-1),
    solid: new Uint8Array(n),
    stack: new Int32Array(n),
    depth: new Int32Array(n),
    height: 0,
    tries: 0,
    branch: new Int16Array(compiled.branches.length).fill(-1),
    onPart: parts.map(() => []),
    acts: barriers.map(() => []),
    heldTo: new Float64Array(holds.length),
    heldOpen: new Float64Array(holds.length),
    filmTo: new Float64Array(compiled.films.length),
    filmSpans: compiled.films.map(() => []),
    cursor: new Int32Array(builders.length),
    single: [0],
    scratch: [],
  };
}

const copyStacks = (from: readonly number[][], to: number[][]): void => {
  from.forEach((list, i) => {
    to[i].length = 0;
    to[i].push(...list);
  });
};

/** Makes `to` what `from` is, but for the branches and for how frozen work is booked: it is never taken back. */
export function copyState(from: State, to: State): void {
  from.busy.forEach((list, b) => {
    copyBusy(list, to.busy[b]);
  });
  from.profiles.forEach((profile, r) => {
    copyProfile(profile, to.profiles[r]);
  });
  from.dust.forEach((air, s) => {
    copyAir(air, to.dust[s]);
  });
  from.open.forEach((air, s) => {
    copyAir(air, to.open[s]);
  });
  from.gates.forEach((air, g) => {
    copyAir(air, to.gates[g]);
  });
  from.closed.forEach((air, b) => {
    copyAir(air, to.closed[b]);
  });
  to.placed.set(from.placed);
  to.start.set(from.start);
  to.finish.set(from.finish);
  to.mode.set(from.mode);
  to.crew.set(from.crew);
  to.slot.set(from.slot);
  to.stack.set(from.stack);
  to.depth.set(from.depth);
  to.height = from.height;
  copyStacks(from.onPart, to.onPart);
  copyStacks(from.acts, to.acts);
  to.heldTo.set(from.heldTo);
  to.heldOpen.set(from.heldOpen);
  to.filmTo.set(from.filmTo);
  copyStacks(from.filmSpans, to.filmSpans);
}

/** Whether the activity is done under the branches taken. */
export function isPresent({ activities }: Compiled, state: State, a: number): boolean {
  const { choice, branch } = activities[a];
  return choice < 0 || state.branch[choice] === branch;
}

/** The crew that a placed activity has; null where nobody is needed or the work is frozen. */
export function crewOf(compiled: Compiled, state: State, a: number): CrewOption | null {
  const { crews } = compiled.activities[a].modes[state.mode[a]];
  return crews === null || state.crew[a] < 0 ? null : crews[state.crew[a]];
}

/** Working spans of a placed activity, as flat start, end pairs. */
export function segmentsOf(compiled: Compiled, state: State, a: number): number[] {
  const s = state.start[a];
  const f = state.finish[a];
  const { frozen, modes } = compiled.activities[a];
  const mode = modes[state.mode[a]];
  if (f <= s) return [];
  if (!mode.pauses || frozen !== null) return [s, f];
  const { work } = crewOf(compiled, state, a)?.table ?? mode.table;
  const flat: number[] = [];
  for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1)
    flat.push(Math.max(s, work.starts[i]), Math.min(f, work.ends[i]));
  return flat;
}
