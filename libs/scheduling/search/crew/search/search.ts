import { random as seeded } from '#kernel/random.ts';
import type { Plan, ProvedBound, SearchState, SolveStatus } from '../../../model/plan.ts';
import type { Problem } from '../../../model/problem.ts';
import { incumbent } from '../../incumbent.ts';
import type { Search } from '../../search.ts';
import type { Windows } from '../decode/choose.ts';
import type { Compiled } from '../compiled/compiled.ts';
import { decoder as decoderFor } from '../decode/decode.ts';
import { copyGenome, emptyGenome, type Genome } from '../decode/genome.ts';
import { improver as improverFor, type Measure } from './improve.ts';
import { causesOf, cross, move, mutate, settle, type Causes } from './moves.ts';
import { planOf } from './plan-of.ts';
import { POPULATION, populationOf } from './population.ts';
import {
  FEW_POLISHING,
  polishEnergy,
  polishingAfter,
  polishMove,
  promised,
  publishedGenome,
  settleWhole,
  type Goal,
} from './polish.ts';
import { hurry, ruleGenome, smithOrder, tails } from './rules.ts';
import { warmGenomes } from './warm.ts';
import { costsMoney, newWorth, valuesOf, worthOf } from './worth.ts';

/** The better of two bounds of a rank; of equal ones that with fewer caps. */
function tighter(a: ProvedBound, b: ProvedBound | undefined): ProvedBound {
  if (b === undefined || b.bound < a.bound) return a;
  return b.bound > a.bound || b.caps.length < a.caps.length ? b : a;
}

/** A running search: `step` does so many decodes more and shows where it stands. */
export interface CrewSearch extends Search {
  step(iterations: number): SearchState & { readonly foundAt: number };
  /**
   * Decodes so far (one an iteration, whole or from a prefix), those of them that were stopped early,
   * activities looked at in them or placed as in another plan without looking, and starts tried.
   */
  counts(): {
    readonly decodes: number;
    readonly stopped: number;
    readonly looks: number;
    readonly repeats: number;
    readonly tries: number;
  };
}

type Phase = 'rules' | 'breeding' | 'improving' | 'polishing';

/** Decodes by rule before breeding starts. */
const RULES = POPULATION;
/** Decodes of one stretch of breeding. */
const BREEDING = 400;
/** Neighbours tried in the first stretch of improving, and in the longest. */
const IMPROVING = 1500;
const MOST_IMPROVING = 48_000;
/** Beyond so many activities, fewer rules and no breeding: a decode takes too long. */
const MANY = 200;
const FEW_RULES = 24;
/** And of so many neighbours one is a plan by rule instead, with the refits in another order. */
const BY_RULE = 8;
/** Decodes for rank 3, and for rank 4, at most, after each stretch of improving; and after the rules. */
const POLISHING = 500;
const FIRST_POLISHING = 60;
/** Of the energy: what annealing accepts at first with probability 1/e. Measured best of 0.0005 to 0.008. */
const HEAT = 0.008;
/** Of the sum of finishes, what any neighbour is expected to have. */
const STEADY = 0.97;
/** How freely worse plans are accepted while there is headway; freely only once there is none. */
const COOL = 0.1;
/** Fruitless rounds after which the population is made anew. */
const PATIENCE = 3;

/** What is proved before the search begins. */
export interface SearchRoot {
  readonly compiled: Compiled;
  readonly windows: Windows;
  /** Lower bounds of the four ranks, at which the search is done. */
  readonly bounds: readonly ProvedBound[];
}

/**
 * Search over genomes by decodes: rules first, then breeding and annealing for ranks 1 and 2 in
 * turn, each time followed by a share for rank 3 and one for rank 4, from the best plan.
 * Deterministic: all chance comes from `seed`, and the stretches are counted in decodes.
 */
export function crewSearch(
  problem: Problem,
  seed: number,
  warmStart: Plan | null,
  root: SearchRoot,
): CrewSearch {
  const { compiled, windows } = root;
  let { bounds } = root;
  const random = seeded(seed);
  const decoder = decoderFor(compiled, windows);
  const n = problem.activities.length;
  const tail = tails(compiled);
  const ends = new Float64Array(problem.refits.length);
  const paid = costsMoney(problem);
  const worth = newWorth();
  const best = incumbent(problem.tolerances);
  const genomes = new WeakMap<Plan, Genome>();
  const population = populationOf(compiled, random);
  const trial = emptyGenome(compiled);
  const current = emptyGenome(compiled);
  const blamed = new Float64Array(n);
  const weights = problem.refits.reduce((sum, refit) => sum + refit.weight, 0);
  const spreadWeight = (0.02 * Math.max(1, weights)) / Math.max(1, n);
  const target = root.bounds[0].bound + problem.tolerances[0];
  const goals: Goal[] = [];
  if (paid) goals.push(2);
  if (problem.published !== null && problem.published.tasks.length > 0) goals.push(3);

  /** The best order of refits so far, and the energy of the plan it gave. */
  let order: readonly number[] = smithOrder(compiled);
  let ordered = Infinity;
  let iterations = 0;
  let foundAt = 0;
  let rule = 0;
  let phase: Phase = 'rules';
  let goal: Goal = 1;
  const rules = n > MANY ? FEW_RULES : RULES;
  let left = rules;
  let failures = 0;
  let fruitless = 0;
  let stretches = 0;
  let started = false;
  let spread = 0;
  let improved = false;
  let energy = Infinity;
  let temperature = 0;
  let length = POLISHING;
  let improving = IMPROVING;
  let causes: Causes | null = null;
  let currentPresent: Uint8Array = new Uint8Array(n);
  let optimal = false;
  let polishing = n > MANY ? FEW_POLISHING : FIRST_POLISHING;
  /** Activities looked at before the stretch of improving. */
  let looked = 0;

  const isProved = ({ bound, caps }: ProvedBound, rank: number): boolean =>
    best.least[rank] <= bound && caps.every((cap, r) => cap >= best.cap(r));

  /** Whether no cap that tightens can ever bring such a plan back. */
  const isHopeless = (): boolean => {
    const [late, finishes] = worth.values;
    return late > best.cap(0) || (late === best.cap(0) && finishes > best.cap(1));
  };

  const keep = (genome: Genome): void => {
    if (best.plan !== null && isHopeless()) return;
    const before = best.least[1];
    const late = best.least[0];
    const values = valuesOf(worth);
    const changed = best.offer(values, () => {
      const plan = planOf(decoder, genome.branch, ends, worth);
      const own = emptyGenome(compiled);
      copyGenome(genome, own);
      settleWhole(decoder, own);
      genomes.set(plan, own);
      return plan;
    });
    if (!changed) return;
    foundAt = iterations;
    if (best.least[0] < late || best.least[1] < before) improved = true;
    optimal = bounds.every(isProved);
  };

  /** One decode; the energy guides, the incumbent is kept by the exact ranks. */
  const evaluate = (genome: Genome): number => {
    iterations += 1;
    if (!decoder.decode(genome)) {
      if (decoder.blame >= 0) blamed[decoder.blame] += 1;
      return Infinity;
    }
    worthOf(decoder, ends, paid, worth);
    keep(genome);
    return goal === 1
      ? promised(worth, target) + spreadWeight * worth.spread
      : polishEnergy(goal, worth, best);
  };

  const byRule = (): number => {
    const followed = ruleGenome(
      compiled,
      { windows, tail, order, failing: best.plan === null && failures > 0 },
      rule,
      random,
      trial,
    );
    trial.ahead = failures > 0 && rule % 2 === 1;
    trial.order = failures > 0 ? (rule >> 1) % compiled.orderCount : 0;
    if (failures > 0) hurry(compiled, blamed, trial);
    rule += 1;
    const value = evaluate(trial);
    if (value === Infinity) {
      failures += 1;
      return value;
    }
    if (followed !== null && value < ordered) {
      ordered = value;
      order = followed;
    }
    settle(decoder, trial);
    population.insert(trial, value);
    return value;
  };

  const breed = (): void => {
    cross(decoder, population.parent(), population.parent(), trial, random);
    mutate(decoder, trial, random);
    const value = evaluate(trial);
    if (value === Infinity) return;
    settle(decoder, trial);
    population.insert(trial, value);
  };

  /** The genome of the best plan so far. */
  const bestGenome = (): Genome | undefined =>
    best.plan === null ? undefined : genomes.get(best.plan);

  /** Whether ranks 1 to 3 of the plan decoded last could be better than what is known. */
  const isPromising = (): boolean => {
    const [late, finishes] = worth.values;
    if (late < best.least[0]) return true;
    if (late > best.cap(0)) return false;
    return finishes < best.least[1] || (goals.length > 0 && finishes <= best.cap(1));
  };

  const measure: Measure = {
    energyOf(genome) {
      worthOf(decoder, ends, false, worth);
      const value = promised(worth, target) + spreadWeight * worth.spread;
      spread = spreadWeight * worth.spread;
      if (!isPromising()) return value;
      worthOf(decoder, ends, paid, worth);
      const [late, finishes, money, moves] = worth.values;
      const wanted =
        late < best.least[0] ||
        finishes < best.least[1] ||
        money < best.least[2] ||
        (money <= best.cap(2) && moves < best.least[3]);
      if (wanted) keep(genome);
      return value;
    },
    atLeast(least) {
      let sum = spread * STEADY;
      for (let r = 0; r < least.length; r += 1) sum += weighted(r, least[r]);
      return sum;
    },
  };

  /** What a refit that finishes then adds to the energy, at least. */
  const weighted = (r: number, finish: number): number => {
    const { weight } = problem.refits[r];
    return weight * finish;
  };

  const earliest = new Float64Array(problem.refits.length);
  compiled.activities.forEach(({ refit, choice }, a) => {
    if (refit >= 0 && choice < 0)
      earliest[refit] = Math.max(earliest[refit], windows.finishFrom[a]);
  });
  const improver = improverFor(decoder, random, measure, earliest);

  const beginAnnealing = (): void => {
    const own = bestGenome();
    copyGenome(
      own !== undefined && (goal > 1 || fruitless % 2 === 0) ? own : population.parent(),
      current,
    );
    energy = Infinity;
    causes = null;
    temperature = 1;
    length = left;
  };

  const neighbour = (): void => {
    if (causes === null) copyGenome(current, trial);
    else if (goal > 1 && random.below(4) > 0) polishMove(decoder, goal, current, trial, random);
    else move(decoder, currentPresent, causes, current, trial, random);
  };

  const anneal = (): void => {
    neighbour();
    const value = evaluate(trial);
    const heat = Math.max(1, energy === Infinity ? 1 : energy) * HEAT * temperature;
    temperature = Math.max(0.02, temperature * (1 - 4 / length));
    if (value === Infinity) {
      // Where the plan to begin with gives none, there is nothing to go on from.
      if (causes === null) left = 0;
      return;
    }
    if (causes !== null && value > energy && random.unit() >= Math.exp((energy - value) / heat))
      return;
    copyGenome(trial, current);
    if (goal > 1) settleWhole(decoder, current);
    else settle(decoder, current);
    energy = value;
    causes = causesOf(decoder, current.branch);
    currentPresent = decoder.present.slice();
  };

  /** One neighbour; the first of a stretch is the plan to begin with. */
  const improve = (): void => {
    if (started && n > MANY && random.below(BY_RULE) === 0) {
      const value = byRule();
      if (value < improver.energy) improver.begin(trial, value, left, COOL);
      return;
    }
    if (started) {
      iterations += 1;
      improver.step();
      return;
    }
    const own = bestGenome();
    const from = own !== undefined && fruitless % 3 < 2 ? own : population.parent();
    copyGenome(from, trial);
    const value = evaluate(trial);
    if (value === Infinity) {
      left = 0;
      return;
    }
    improver.begin(trial, value, left, fruitless === 0 ? COOL : fruitless / PATIENCE);
    started = true;
  };

  const begin = (next: Phase, count: number, rank: Goal = 1): void => {
    phase = next;
    left = count;
    goal = rank;
    started = false;
    if (next === 'improving') looked = decoder.looks;
    if (next === 'polishing') beginAnnealing();
  };

  /** After the rules or improving: the later ranks in turn, then improving again. */
  const polishOrImprove = (count: number): void => {
    const next = best.plan === null ? undefined : goals.find((rank) => rank > goal);
    if (next !== undefined) begin('polishing', count, next);
    else if (n <= MANY && stretches % 3 === 2) begin('breeding', BREEDING);
    else begin('improving', improving);
    stretches += 1;
  };

  const nextPhase = (): void => {
    if (phase === 'rules' && population.count < 2) begin('rules', rules);
    else if (phase === 'breeding') begin('improving', improving);
    else if (phase === 'improving') {
      if (improver.energy < Infinity) population.insert(improver.current, improver.energy);
      fruitless = improved ? 0 : fruitless + 1;
      improved = false;
      improving = Math.min(MOST_IMPROVING, 2 * improving);
      polishing = n > MANY ? polishingAfter(decoder.looks - looked, n, POLISHING) : POLISHING;
      polishOrImprove(polishing);
    } else polishOrImprove(polishing);
    if (phase !== 'rules' && goal === 1 && fruitless > PATIENCE) {
      population.clear();
      fruitless = 0;
      improving = IMPROVING;
      begin('rules', rules);
    }
  };

  const state = (): SearchState & { readonly foundAt: number } => {
    const { plan } = best;
    let status: SolveStatus = 'unknown';
    if (plan !== null) status = optimal ? 'optimal' : 'feasible';
    return {
      status,
      plan,
      bounds,
      iterations,
      done: optimal || (n === 0 && plan !== null),
      foundAt,
    };
  };

  /** Whether ranks 1 to 3 of another search's plan are better than what is known here. */
  const isBetter = ({ values }: Plan): boolean => {
    const rank = [0, 1, 2].find((r) => values[r] !== best.least[r]);
    return rank !== undefined && values[rank] < best.least[rank];
  };

  const given: Genome[] = warmStart === null ? [] : warmGenomes(compiled, warmStart);
  if (problem.published !== null && goals.includes(3))
    given.push(publishedGenome(compiled, problem.published));

  return {
    step(count) {
      for (let k = 0; k < count && !optimal; k += 1) {
        const warm = given.shift();
        if (warm !== undefined) {
          const value = evaluate(warm);
          if (value < Infinity) {
            settle(decoder, warm);
            population.insert(warm, value);
          }
          continue;
        }
        if (left <= 0) nextPhase();
        left -= 1;
        if (phase === 'rules') byRule();
        else if (phase === 'breeding') breed();
        else if (phase === 'improving') improve();
        else anneal();
      }
      return state();
    },
    leading: () => best.leading,
    counts: () => ({
      decodes: iterations,
      stopped: improver.stopped,
      looks: decoder.looks,
      repeats: decoder.repeats,
      tries: decoder.state.tries,
    }),
    receive(plan, proved) {
      bounds = bounds.map((own, r) => tighter(own, proved[r]));
      if (plan !== null) {
        const better = isBetter(plan);
        const changed = best.offer(plan.values, () => plan);
        if (changed) {
          foundAt = iterations;
          genomes.set(plan, warmGenomes(compiled, plan)[0]);
        }
        if (better && changed && phase === 'improving') {
          improved = true;
          left = 0;
        }
      }
      optimal = best.plan !== null && bounds.every(isProved);
    },
  };
}
