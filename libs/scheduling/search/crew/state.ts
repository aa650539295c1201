import { addBusy, busyAfter, busyList, copyBusy, removeBusy, type BusyList } from './busy.ts';
import type { Compiled, CompiledMode } from './compiled.ts';
import type { CrewOption } from './crews.ts';
import { openUntil } from './inverse.ts';
import { copyProfile, profileOf, take, type Profile } from './profile.ts';
import { spanAfter } from './spans.ts';

/** Spans of dust, or of open surfaces and wet work, in one space; used as a stack. */
export interface Air {
  count: number;
  starts: Int32Array;
  ends: Int32Array;
}

/** A partial plan that a decode builds up, and takes back last in, first out. */
export interface State {
  readonly busy: BusyList[];
  readonly profiles: Profile[];
  /** Dust that reaches a space. */
  readonly dust: Air[];
  /** What must not meet dust in a space. */
  readonly open: Air[];
  readonly placed: Uint8Array;
  readonly start: Int32Array;
  readonly finish: Int32Array;
  readonly mode: Int16Array;
  /** Index into the mode's crews, -1 where there are none or the work is frozen. */
  readonly crew: Int16Array;
  /** 1 where the crew is booked in one span, 0 where by working spans. */
  readonly solid: Uint8Array;
  readonly stack: Int32Array;
  /** Position on the stack. */
  readonly depth: Int32Array;
  height: number;
  /** The branches taken. */
  readonly branch: Int16Array;
}

const airList = (): Air => ({ count: 0, starts: new Int32Array(16), ends: new Int32Array(16) });

function pushAir(air: Air, start: number, end: number): void {
  if (air.count === air.starts.length) {
    const starts = new Int32Array(air.count * 2);
    const ends = new Int32Array(air.count * 2);
    starts.set(air.starts);
    ends.set(air.ends);
    air.starts = starts;
    air.ends = ends;
  }
  air.starts[air.count] = start;
  air.ends[air.count] = end;
  air.count += 1;
}

function copyAir(from: Air, to: Air): void {
  to.count = 0;
  for (let i = 0; i < from.count; i += 1) pushAir(to, from.starts[i], from.ends[i]);
}

export function emptyState(compiled: Compiled): State {
  const { builders, resources, spaces, activities } = compiled.problem;
  const n = activities.length;
  return {
    busy: builders.map(busyList),
    profiles: resources.map(profileOf),
    dust: spaces.map(airList),
    open: spaces.map(airList),
    placed: new Uint8Array(n),
    start: new Int32Array(n),
    finish: new Int32Array(n),
    mode: new Int16Array(n),
    crew: new Int16Array(n).fill(-1),
    solid: new Uint8Array(n),
    stack: new Int32Array(n),
    depth: new Int32Array(n),
    height: 0,
    branch: new Int16Array(compiled.branches.length).fill(-1),
  };
}

/** Makes `to` what `from` is, without allocating. */
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
  to.placed.set(from.placed);
  to.start.set(from.start);
  to.finish.set(from.finish);
  to.mode.set(from.mode);
  to.crew.set(from.crew);
  to.stack.set(from.stack);
  to.depth.set(from.depth);
  to.height = from.height;
}

/**
 * Books the crew. A pause of somebody working alone is that person's own time off, so one
 * span does for the whole; unless a relieved job lies inside the pause already.
 */
function occupy(
  state: State,
  a: number,
  mode: CompiledMode,
  option: CrewOption,
  s: number,
  f: number,
): void {
  const { work } = option.table;
  const alone = !mode.pauses || option.builders.length === 1;
  state.solid[a] = 0;
  for (const builder of option.builders) {
    const list = state.busy[builder];
    const next = busyAfter(list, s);
    if (alone && (next >= list.count || list.starts[next] >= f)) {
      state.solid[a] = 1;
      addBusy(list, s, f);
      continue;
    }
    for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1)
      addBusy(list, Math.max(s, work.starts[i]), Math.min(f, work.ends[i]));
  }
}

function release(state: State, a: number, option: CrewOption, s: number, f: number): void {
  const { work } = option.table;
  for (const builder of option.builders) {
    const list = state.busy[builder];
    if (state.solid[a] === 1) removeBusy(list, s);
    else
      for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1)
        removeBusy(list, Math.max(s, work.starts[i]));
  }
}

function use(
  state: State,
  mode: CompiledMode,
  option: CrewOption | null,
  s: number,
  f: number,
  sign: number,
): void {
  for (const one of mode.uses) {
    const profile = state.profiles[one.resource];
    if (one.whole || option === null) {
      take(profile, s, f, sign * one.amount);
      continue;
    }
    const { work } = option.table;
    for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1)
      take(profile, Math.max(s, work.starts[i]), Math.min(f, work.ends[i]), sign * one.amount);
  }
}

function pollute(
  compiled: Compiled,
  state: State,
  mode: CompiledMode,
  option: CrewOption | null,
  s: number,
  f: number,
  add: boolean,
): void {
  const { settling, dustReaches } = compiled.problem.spaces[mode.space];
  for (const space of dustReaches) {
    const air = state.dust[space];
    if (!mode.pauses || option === null) {
      if (add) pushAir(air, s, f + settling);
      else air.count -= 1;
      continue;
    }
    const { work } = option.table;
    for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1) {
      if (add) pushAir(air, Math.max(s, work.starts[i]), Math.min(f, work.ends[i]) + settling);
      else air.count -= 1;
    }
  }
}

function apply(
  compiled: Compiled,
  state: State,
  a: number,
  mode: CompiledMode,
  option: CrewOption | null,
  add: boolean,
): void {
  const s = state.start[a];
  const f = state.finish[a];
  if (f > s) {
    if (option !== null && add) occupy(state, a, mode, option, s, f);
    else if (option !== null) release(state, a, option, s, f);
    use(state, mode, option, s, f, add ? 1 : -1);
    if (mode.dusty) pollute(compiled, state, mode, option, s, f, add);
  }
  if (mode.sensitive) {
    const until = openUntil(compiled.problem, compiled.activities[a].surfaces, f);
    if (until > s) {
      if (add) pushAir(state.open[mode.space], s, until);
      else state.open[mode.space].count -= 1;
    }
  }
}

/** The crew that a placed activity has; null where nobody is needed or the work is frozen. */
export function crewOf(compiled: Compiled, state: State, a: number): CrewOption | null {
  const { crews } = compiled.activities[a].modes[state.mode[a]];
  return crews === null || state.crew[a] < 0 ? null : crews[state.crew[a]];
}

export function place(
  compiled: Compiled,
  state: State,
  a: number,
  mode: number,
  crew: number,
  s: number,
  f: number,
): void {
  state.placed[a] = 1;
  state.start[a] = s;
  state.finish[a] = f;
  state.mode[a] = mode;
  state.crew[a] = crew;
  state.stack[state.height] = a;
  state.depth[a] = state.height;
  state.height += 1;
  apply(compiled, state, a, compiled.activities[a].modes[mode], crewOf(compiled, state, a), true);
}

/** Takes back the activity placed last and returns it. */
export function unplace(compiled: Compiled, state: State): number {
  state.height -= 1;
  const a = state.stack[state.height];
  apply(
    compiled,
    state,
    a,
    compiled.activities[a].modes[state.mode[a]],
    crewOf(compiled, state, a),
    false,
  );
  state.placed[a] = 0;
  return a;
}

/** Places frozen work: in one piece, whatever its mode, with the people who did it. */
export function placeFrozen(compiled: Compiled, state: State): void {
  compiled.activities.forEach((activity, a) => {
    const { frozen } = activity;
    if (!frozen) return;
    const mode = { ...activity.modes[frozen.mode], pauses: false };
    state.placed[a] = 1;
    state.start[a] = frozen.start;
    state.finish[a] = frozen.finish;
    state.mode[a] = frozen.mode;
    state.stack[state.height] = a;
    state.depth[a] = state.height;
    state.height += 1;
    if (frozen.finish > frozen.start)
      for (const b of frozen.builders) addBusy(state.busy[b], frozen.start, frozen.finish);
    apply(compiled, state, a, mode, null, true);
  });
}

/** Working spans of a placed activity, as flat start, end pairs. */
export function segmentsOf(compiled: Compiled, state: State, a: number): number[] {
  const s = state.start[a];
  const f = state.finish[a];
  const mode = compiled.activities[a].modes[state.mode[a]];
  const option = crewOf(compiled, state, a);
  if (f <= s) return [];
  if (!mode.pauses || option === null) return [s, f];
  const { work } = option.table;
  const flat: number[] = [];
  for (let i = spanAfter(work, s); i < work.count && work.starts[i] < f; i += 1)
    flat.push(Math.max(s, work.starts[i]), Math.min(f, work.ends[i]));
  return flat;
}
