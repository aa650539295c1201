import type { Evidence } from './evidence.ts';
import {
  type Effect,
  type MixedFit,
  mixedModel,
  type Observation,
  type Priors,
} from './mixed-model.ts';

/** How much longer something takes than planned: 1.2 is a fifth longer. */
export interface Estimate {
  readonly factor: number;
  /** Four times out of five the true factor lies between these. */
  readonly low: number;
  readonly high: number;
  readonly tasks: number;
  /** Builder-minutes of those tasks, those of several people shared out by who was how long at them. */
  readonly planned: number;
  readonly actual: number;
  /** There is enough to go by, and it says something. */
  readonly advised: boolean;
}

export interface StepEstimate extends Estimate {
  readonly procedure: string;
  readonly step: string;
}
export interface PersonEstimate extends Estimate {
  readonly person: string;
  readonly skill: string;
}
export interface SpaceEstimate extends Estimate {
  readonly space: string;
}

export interface Productivity {
  /** Of all work; null where nothing has been finished. */
  readonly yard: Estimate | null;
  /** Of a step with the yard's own; of a person and of a space beside what steps take. */
  readonly steps: readonly StepEstimate[];
  readonly people: readonly PersonEstimate[];
  readonly spaces: readonly SpaceEstimate[];
  /** So far from all others that a clock was forgotten rather than work slow. */
  readonly setAside: readonly { readonly taskId: string; readonly factor: number }[];
}

/** Half of a factor's 80 % interval, in standard deviations of the normal. */
const Z80 = 1.2816;
/**
 * Before anything is known: steps, people and spaces differ by some 20 %, one task from the next by
 * 30 % (common practice, no source); worth four and two observations, which ten tasks outweigh.
 */
const priors: Priors = {
  residual: { worth: 4, variance: 0.3 ** 2 },
  factor: { worth: 2, variance: 0.2 ** 2 },
};
/** Modified z-score beyond which something is an outlier (Iglewicz and Hoaglin, 1993, 11.3). */
const OUTLIER = 3.5;
/** With fewer, nobody can say which one is odd. */
const FEWEST_TO_JUDGE = 8;
/** What is advised rests on so many tasks, and changes so much, at least (common practice, no source). */
const FEWEST_ADVISED = 3;
const LEAST_CHANGE = 0.05;

/** The levels of one factor, numbered as they are met. */
type Levels = Map<string, number>;

function levelOf(levels: Levels, key: string): number {
  const level = levels.get(key) ?? levels.size;
  levels.set(key, level);
  return level;
}

const [STEPS, PEOPLE, SPACES] = [0, 1, 2];
const SEPARATOR = '\u0000';
const joined = (...ids: readonly string[]): string => ids.join(SEPARATOR);

interface Read {
  readonly one: Evidence;
  readonly observation: Observation;
}

function readAll(evidence: readonly Evidence[], levels: readonly Levels[]): Read[] {
  return evidence.map((one) => ({
    one,
    observation: {
      y: Math.log(one.actual / one.planned),
      levels: [
        {
          factor: STEPS,
          level: levelOf(levels[STEPS], joined(one.procedure, one.step)),
          weight: 1,
        },
        ...one.shares.map(({ person, share }) => ({
          factor: PEOPLE,
          level: levelOf(levels[PEOPLE], joined(person, one.skill)),
          weight: share,
        })),
        { factor: SPACES, level: levelOf(levels[SPACES], one.space), weight: 1 },
      ],
    },
  }));
}

const medianOf = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
};

/** Which observations lie so far from what is expected of them that they are of something else. */
function outliers(reads: readonly Read[], fit: MixedFit): ReadonlySet<Read> {
  if (reads.length < FEWEST_TO_JUDGE) return new Set();
  const rest = reads.map(({ observation }) => observation.y - fit.fitted(observation));
  const middle = medianOf(rest);
  const deviation = medianOf(rest.map((value) => Math.abs(value - middle)));
  // A least deviation, or work that went all alike would make an outlier of the first that did not.
  const scale = Math.max(deviation / 0.6745, 0.05);
  return new Set(reads.filter((_, i) => Math.abs(rest[i] - middle) / scale > OUTLIER));
}

/** Sums of what was planned and what it took, by level. */
interface Sum {
  tasks: number;
  planned: number;
  actual: number;
}

function sumsOf(reads: readonly Read[]): ReadonlyMap<string, Sum> {
  const sums = new Map<string, Sum>();
  for (const { one, observation } of reads) {
    for (const { factor, level, weight } of observation.levels) {
      const key = joined(String(factor), String(level));
      const sum = sums.get(key) ?? { tasks: 0, planned: 0, actual: 0 };
      sum.tasks += 1;
      sum.planned += one.planned * weight;
      sum.actual += one.actual * weight;
      sums.set(key, sum);
    }
  }
  return sums;
}

function estimateOf({ mean, sd }: Effect, sum: Sum): Estimate {
  const [factor, low, high] = [mean, mean - Z80 * sd, mean + Z80 * sd].map(Math.exp);
  const isClear = low > 1 || high < 1;
  return {
    ...{ factor, low, high },
    ...sum,
    advised: isClear && sum.tasks >= FEWEST_ADVISED && Math.abs(factor - 1) >= LEAST_CHANGE,
  };
}

/**
 * How long work takes against the plan, taken apart into what steps, people at a skill, and spaces
 * have to do with it (see `mixedModel`; of logarithms, since they multiply). A slow step that one
 * person alone does is shared between the two, with the spread that such evidence leaves.
 */
export function productivityOf(evidence: readonly Evidence[]): Productivity {
  const levels: Levels[] = Array.from({ length: 3 }, () => new Map<string, number>());
  const all = readAll(evidence, levels);
  if (all.length === 0) return { yard: null, steps: [], people: [], spaces: [], setAside: [] };
  const counts = levels.map(({ size }) => size);
  const fitOf = (reads: readonly Read[]): MixedFit =>
    mixedModel(
      reads.map(({ observation }) => observation),
      counts,
      priors,
    );
  const first = fitOf(all);
  const odd = outliers(all, first);
  const kept = all.filter((read) => !odd.has(read));
  const fit = odd.size === 0 ? first : fitOf(kept);
  const sums = sumsOf(kept);
  const each = <T>(factor: number, effect: MixedFit['effect'], named: (ids: string[]) => T) =>
    [...levels[factor]].flatMap(([key, level]) => {
      const sum = sums.get(joined(String(factor), String(level)));
      if (sum === undefined) return [];
      return [{ ...named(key.split(SEPARATOR)), ...estimateOf(effect(factor, level), sum) }];
    });
  const total = kept.reduce<Sum>(
    ({ tasks, planned, actual }, { one }) => ({
      tasks: tasks + 1,
      planned: planned + one.planned,
      actual: actual + one.actual,
    }),
    { tasks: 0, planned: 0, actual: 0 },
  );
  return {
    yard: estimateOf(fit.mean, total),
    steps: each(STEPS, fit.withMean, ([procedure, step]) => ({ procedure, step })),
    people: each(PEOPLE, fit.effect, ([person, skill]) => ({ person, skill })),
    spaces: each(SPACES, fit.effect, ([space]) => ({ space })),
    setAside: [...odd].map(({ one }) => ({
      taskId: one.taskId,
      factor: one.actual / one.planned,
    })),
  };
}
