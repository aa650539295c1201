import type { Random } from '#kernel/random.ts';
import type { Decoder } from '../decode/decode.ts';
import { copyGenome, type Genome } from '../decode/genome.ts';
import { anchorBound } from '../compiled/inverse.ts';
import { crewOf } from '../state/state.ts';
import { holds } from '../decode/window.ts';

/**
 * Takes over what the decode made of a genome: keys become places in the order of placing, and modes
 * that were chosen for the stocks are wished for. Decoded again it gives the same plan, unless
 * something had to be taken back, so that moves are small.
 */
export function settle({ compiled, state, present }: Decoder, genome: Genome): void {
  for (let a = 0; a < present.length; a += 1) {
    if (present[a] === 0) continue;
    genome.keys[a] = state.depth[a];
    if (compiled.activities[a].consumes) genome.mode[a] = state.mode[a];
  }
  // An absent activity takes the key of what it would follow, should its branch be taken.
  const order = compiled.orderAt(genome.order);
  for (const a of order.topological) {
    if (present[a] === 1) continue;
    let key = 0;
    for (const b of order.before[a]) key = Math.max(key, genome.keys[b] + 0.5);
    genome.keys[a] = key;
  }
}

/** What holds each activity of a plan back, remembered for moves on the way to a refit's finish. */
export interface Causes {
  /** The last to finish, by refit; -1 where none. */
  readonly last: Int32Array;
  /** The activity that held it back most, -1 where none did. */
  readonly cause: Int32Array;
  /** 1 where that one is in the way (same builder), 0 where it is a lag. */
  readonly byCrew: Uint8Array;
}

export function causesOf(
  { compiled, state, present }: Decoder,
  branches: ArrayLike<number>,
): Causes {
  const n = present.length;
  const last = new Int32Array(compiled.problem.refits.length).fill(-1);
  const cause = new Int32Array(n).fill(-1);
  const byCrew = new Uint8Array(n);
  const order = Array.from({ length: n }, (_, a) => a).filter((a) => present[a] === 1);
  order.sort((a, b) => state.start[a] - state.start[b] || a - b);
  const latest = new Int32Array(compiled.problem.builders.length).fill(-1);
  for (const a of order) {
    const { refit, incoming } = compiled.activities[a];
    if (refit >= 0 && (last[refit] < 0 || state.finish[a] > state.finish[last[refit]]))
      last[refit] = a;
    let until = -Infinity;
    for (const arc of incoming) {
      if (!arc.open || arc.toFinish || present[arc.from] === 0 || !holds(arc, branches)) continue;
      const at = anchorBound(
        compiled.problem,
        arc,
        state.mode[arc.from],
        arc.fromFinish ? state.finish[arc.from] : state.start[arc.from],
      );
      if (at > until) {
        until = at;
        cause[a] = arc.from;
      }
    }
    for (const builder of crewOf(compiled, state, a)?.booked ?? []) {
      const b = latest[builder];
      if (b >= 0 && state.finish[b] > until) {
        until = state.finish[b];
        cause[a] = b;
        byCrew[a] = 1;
      }
      if (b < 0 || state.finish[a] > state.finish[b]) latest[builder] = a;
    }
  }
  return { last, cause, byCrew };
}

const any = (random: Random, present: Uint8Array): number => {
  for (;;) {
    const a = random.below(present.length);
    if (present[a] === 1) return a;
  }
};

/** An activity on the way to a random refit's finish. */
function critical(random: Random, causes: Causes, present: Uint8Array): number {
  let a = causes.last.length > 0 ? causes.last[random.below(causes.last.length)] : -1;
  if (a < 0) return any(random, present);
  for (let steps = random.below(24); steps > 0 && causes.cause[a] >= 0; steps -= 1)
    a = causes.cause[a];
  return a;
}

function changeCrew({ compiled }: Decoder, genome: Genome, random: Random, a: number): void {
  const { modes } = compiled.activities[a];
  genome.mode[a] = random.below(modes.length);
  const { crews } = modes[genome.mode[a]];
  genome.crew[a] =
    crews === null || crews.length === 0 || random.below(3) === 0 ? -1 : random.below(crews.length);
}

/** Makes an activity wait for a moment of the plan, or no longer wait. */
function changeWait(
  { state }: Decoder,
  present: Uint8Array,
  genome: Genome,
  random: Random,
  a: number,
): void {
  if (genome.wait[a] > 0) {
    genome.wait[a] = 0;
    return;
  }
  const b = any(random, present);
  genome.wait[a] = random.below(2) === 0 ? state.start[b] : state.finish[b];
}

/**
 * One random neighbour of a settled genome: an activity on the way to a finish goes before
 * what is in its way, or gets another crew or mode; an activity moves in time; two change
 * places; a branch is changed; a stretch of time is shaken; one waits though it need not.
 */
export function move(
  decoder: Decoder,
  present: Uint8Array,
  causes: Causes,
  from: Genome,
  to: Genome,
  random: Random,
): void {
  copyGenome(from, to);
  const { compiled } = decoder;
  const { keys } = to;
  const kind = random.below(17);
  if (kind === 0 && compiled.branches.length > 0) {
    const c = random.below(compiled.branches.length);
    const allowed = compiled.branches[c];
    to.branch[c] = allowed[random.below(allowed.length)];
    return;
  }
  if (kind <= 1) {
    const centre = keys[any(random, present)];
    const width = keys.length * 0.1 * random.unit();
    for (let a = 0; a < keys.length; a += 1)
      if (Math.abs(keys[a] - centre) < width) keys[a] += (random.unit() - 0.5) * width;
    return;
  }
  if (kind === 16) {
    changeWait(decoder, present, to, random, any(random, present));
    return;
  }
  const a = kind <= 9 ? critical(random, causes, present) : any(random, present);
  if (kind <= 5) {
    // Before what is in its way; or the one in the way gets others to do it.
    const blocker = causes.cause[a];
    if (blocker >= 0 && causes.byCrew[a] === 1) {
      if (random.below(3) === 0) changeCrew(decoder, to, random, blocker);
      else keys[a] = keys[blocker] - 0.5;
      return;
    }
  }
  if (kind <= 7 || kind === 10) {
    changeCrew(decoder, to, random, a);
    return;
  }
  if (kind <= 12) {
    const b = any(random, present);
    const key = keys[a];
    keys[a] = keys[b];
    keys[b] = key;
    return;
  }
  const reach = keys.length * (random.below(4) === 0 ? 0.5 : 0.1);
  keys[a] += (random.unit() - 0.6) * reach;
}

/**
 * A child of two settled genomes, whose keys are places: by a stretch of places,
 * or by whole refits, or activity by activity.
 */
export function cross(
  decoder: Decoder,
  mother: Genome,
  father: Genome,
  child: Genome,
  random: Random,
): void {
  const { activities, branches, overtime, problem } = decoder.compiled;
  copyGenome(father, child);
  const kind = problem.refits.length > 1 ? random.below(3) : random.below(2) * 2;
  const n = activities.length;
  const from = random.unit() * n * 0.9 - n * 0.1;
  const to = from + (0.1 + 0.4 * random.unit()) * n;
  const mask = random.below(1 << Math.min(20, problem.refits.length));
  for (let a = 0; a < activities.length; a += 1) {
    const { refit } = activities[a];
    let taken: boolean;
    if (kind === 0) taken = mother.keys[a] >= from && mother.keys[a] < to;
    else if (kind === 1) taken = refit >= 0 && ((mask >> (refit % 20)) & 1) === 1;
    else taken = random.below(2) === 0;
    if (!taken) continue;
    child.keys[a] = mother.keys[a];
    child.wait[a] = mother.wait[a];
    child.mode[a] = mother.mode[a];
    child.crew[a] = mother.crew[a];
  }
  for (let c = 0; c < branches.length; c += 1)
    if (random.below(2) === 0) child.branch[c] = mother.branch[c];
  if (random.below(2) === 0) child.slack = mother.slack;
  if (overtime && random.below(2) === 0) child.thrift = mother.thrift;
}

/** A few random changes, so that a child is not only its parents. */
export function mutate(decoder: Decoder, genome: Genome, random: Random): void {
  const { activities, branches, overtime } = decoder.compiled;
  const n = activities.length;
  for (let k = random.below(4); k > 0; k -= 1) {
    const a = random.below(n);
    if (random.below(2) === 0) changeCrew(decoder, genome, random, a);
    else genome.keys[a] += (random.unit() - 0.5) * n * 0.3;
  }
  if (branches.length > 0 && random.below(4) === 0) {
    const c = random.below(branches.length);
    genome.branch[c] = branches[c][random.below(branches[c].length)];
  }
  if (overtime && random.below(20) === 0) genome.thrift = [0, 60, 480, Infinity][random.below(4)];
  if (random.below(20) === 0) genome.slack = [0, 15, 60, 240][random.below(4)];
}
