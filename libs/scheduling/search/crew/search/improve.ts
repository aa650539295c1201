import type { Random } from '#kernel/random.ts';
import { emptyCourse } from '../decode/course.ts';
import type { Decoder } from '../decode/decode.ts';
import { copyGenome, emptyGenome, type Genome } from '../decode/genome.ts';
import { settle } from './moves.ts';
import { restOf } from './rest.ts';
import { STEPS, touchedBy, type Draft } from './steps.ts';
import { walkOf } from './walk.ts';

/** Annealing over plans, each neighbour built from where it first differs. */
export interface Improver {
  /**
   * Goes on from the plan that the decoder made of `genome` last, worth `energy`, for `length` steps; `heat`
   * 0 to 1: how freely worse plans are accepted at first.
   */
  begin(genome: Genome, energy: number, length: number, heat: number): void;
  /**
   * Tries one neighbour; its energy, Infinity where it gave no plan or was given up as too late. On
   * the way back it has that of the plan it stands at.
   */
  step(): number;
  /** Neighbours not built to the end: too late already, or on the way back to the plan it stands at. */
  stopped: number;
  /** The plan it stands at. */
  readonly current: Genome;
  readonly energy: number;
}

export interface Measure {
  /** Energy of the plan that the decoder made last. */
  readonly energyOf: (genome: Genome) => number;
  /** The least energy with refits that finish no earlier than `ends`. */
  readonly atLeast: (ends: Float64Array) => number;
}

/** Minutes of a refit of mean weight: what more energy is accepted at first with probability 1/e. */
const HEAT = 120;
const COOLEST = 0.01;
/** How much of what is known of a kind of step is kept with each try. */
const MEMORY = 0.98;

export function improver(
  decoder: Decoder,
  random: Random,
  measure: Measure,
  earliest: ArrayLike<number>,
): Improver {
  const { compiled, state } = decoder;
  const refits = compiled.problem.refits.length;
  const course = emptyCourse(compiled);
  const current = emptyGenome(compiled);
  const walk = walkOf(compiled);
  const rest = restOf(compiled);
  const draft: Draft = {
    compiled,
    course,
    walk,
    trial: emptyGenome(compiled),
    random,
    floor: 0,
    kept: 0,
    touched: touchedBy(compiled),
  };
  const scores = new Float64Array(STEPS.length).fill(1);
  const ends = new Float64Array(refits);
  const weight =
    compiled.problem.refits.reduce((sum, refit) => sum + refit.weight, 0) / Math.max(1, refits);
  let energy = Infinity;
  let least = Infinity;
  let temperature = 1;
  let cooling = 0.999;
  let limit = Infinity;

  const shut = (): boolean => {
    const a = state.stack[state.height - 1];
    const { refit } = compiled.activities[a];
    const end = state.finish[a] + rest[a];
    if (refit < 0 || end <= ends[refit]) return false;
    ends[refit] = end;
    if (measure.atLeast(ends) <= limit) return false;
    self.stopped += 1;
    return true;
  };

  const take = (genome: Genome, value: number): void => {
    if (genome !== current) copyGenome(genome, current);
    settle(decoder, current);
    const { raised, present } = decoder;
    for (let a = 0; a < present.length; a += 1)
      if (raised.start[a] > 0 || raised.finish[a] > 0)
        current.wait[a] = present[a] === 1 ? state.start[a] : 0;
    decoder.record(course);
    walk.begin(course, current.branch);
    energy = value;
  };

  const choose = (): number => {
    let sum = 0;
    for (const score of scores) sum += score;
    let at = random.unit() * sum;
    for (let k = 0; k < scores.length; k += 1) {
      at -= scores[k];
      if (at < 0) return k;
    }
    return scores.length - 1;
  };

  const learn = (kind: number, gain: number, looks: number): void => {
    const share = gain / Math.max(0.05, looks / Math.max(1, course.height));
    scores[kind] = Math.max(0.05, MEMORY * scores[kind] + (1 - MEMORY) * share);
  };

  const self: Improver = {
    current,
    stopped: 0,
    get energy() {
      return energy;
    },
    begin(genome, value, length, heat) {
      take(genome, value);
      current.crew.fill(-1);
      draft.floor = decoder.floor;
      least = value;
      temperature = Math.max(COOLEST, heat);
      cooling = (COOLEST / temperature) ** (1 / Math.max(1, length));
    },
    step() {
      // Nothing but history and wishes.
      if (course.height <= draft.floor) return Infinity;
      const { trial } = draft;
      copyGenome(current, trial);
      draft.kept = course.height;
      const kind = choose();
      for (let tries = 0; tries < 4 && draft.kept >= course.height; tries += 1) STEPS[kind](draft);
      const heat = HEAT * weight * temperature;
      temperature = Math.max(COOLEST, temperature * cooling);
      limit = energy - heat * Math.log(1 - random.unit());
      const before = decoder.looks;
      const { kept } = draft;
      for (let r = 0; r < refits; r += 1) ends[r] = earliest[r];
      let built: boolean;
      const branching = trial.branch.some((branch, c) => branch !== current.branch[c]);
      // What `redo` keeps in any case, history and wishes, depends on the branches.
      const anew = branching && draft.floor > 0;
      let back = false;
      if (anew) built = decoder.decode(trial);
      else {
        for (let i = 0; i < kept; i += 1) {
          const a = course.stack[i];
          const { refit } = compiled.activities[a];
          if (refit >= 0) ends[refit] = Math.max(ends[refit], course.finish[a] + rest[a]);
        }
        built = decoder.redo(course, kept, trial, shut);
        back = decoder.isBack;
      }
      const looks = decoder.looks - before;
      if (back) {
        self.stopped += 1;
        learn(kind, 0.05, looks);
        return energy;
      }
      if (!built) {
        learn(kind, 0, looks);
        return Infinity;
      }
      const value = measure.energyOf(trial);
      const better = value < energy - 1e-9;
      if (value <= limit) {
        learn(kind, better ? (value < least ? 8 : 2) : value === energy ? 0.05 : 0.3, looks);
        take(trial, value);
        if (anew) draft.floor = decoder.floor;
        least = Math.min(least, value);
      } else learn(kind, 0, looks);
      return value;
    },
  };
  return self;
}
