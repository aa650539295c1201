import { random } from '#kernel/random.ts';
import type { Problem } from '../../model/problem.ts';
import { validate } from '../../model/validate.ts';
import { between, chance, pick } from '../draw.ts';
import type { Draft } from './draft.ts';
import { allFeatures, type Feature } from './features.ts';
import { links } from './links.ts';
import { moments } from './moments.ts';
import { people } from './people.ts';
import { places } from './places.ts';
import { published, refits, tolerances } from './promises.ts';
import { supply } from './supply.ts';
import { work } from './work.ts';

/** The share of problems that are asked for a feature, where it is not the usual one. */
const shares: Partial<Record<Feature, number>> = {
  'kept-while-paused': 0.4,
  'lag-by-mode': 0.4,
  settling: 0.38,
  slots: 0.36,
  notice: 0.85,
  'slot-price': 0.6,
};
const SHARE = 0.28;
/** What a feature is nothing without. */
const needs: Partial<Record<Feature, Feature>> = {
  'kept-while-paused': 'splitting',
  'lag-by-mode': 'modes',
};
const ATTEMPTS = 40;

function draw(seed: number): Problem {
  const rng = random(seed);
  const asked = new Set(allFeatures.filter((name) => chance(rng, shares[name] ?? SHARE)));
  for (const name of allFeatures) {
    const needed = asked.has(name) ? needs[name] : undefined;
    if (needed !== undefined) asked.add(needed);
  }
  const day = between(rng, 14, 20);
  const days = pick(rng, [2, 3, 3]);
  const cut = asked.has('tight-horizon')
    ? between(rng, Math.floor(day * 0.3), Math.floor(day * 0.5))
    : 0;
  const draft: Draft = {
    rng,
    day,
    days,
    wants: (feature) => asked.has(feature),
    problem: {
      version: 2,
      origin: null,
      now: asked.has('notice') ? between(rng, 1, 4) : 0,
      horizon: day * days - cut,
      calendars: [],
      builders: [],
      resources: [],
      stocks: [],
      spaces: [],
      barriers: [],
      parts: [],
      slotLists: [],
      activities: [],
      tables: [],
      lags: [],
      choices: [],
      surfaces: [],
      holds: [],
      refits: [],
      published: null,
    },
  };
  refits(draft);
  people(draft);
  work(draft);
  places(draft);
  links(draft);
  supply(draft);
  moments(draft);
  return {
    ...draft.problem,
    skills: ['laminating', 'sanding'],
    published: published(draft),
    tolerances: tolerances(draft),
  };
}

/**
 * A random small problem, the same for the same seed: two to nine activities in 15 to 60
 * minutes, any feature of the model on, perhaps without any plan. What `validate` would refuse
 * for a cycle of lags is drawn again.
 */
export function smallProblem(seed: number): Problem {
  for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
    const problem = draw(Math.imul(seed, 2654435761) ^ Math.imul(attempt, 40503));
    const faults = validate(problem);
    if (faults.length === 0) return problem;
    if (faults.some(({ code }) => code !== 'yard.cycle'))
      throw new Error(`small problem ${seed} is no problem: ${faults[0].message}`);
  }
  throw new Error(`small problem ${seed}: every draw has a cycle of lags`);
}
