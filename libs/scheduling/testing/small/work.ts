import { plainMode } from '../../model/plain.ts';
import type { Air, CrewDemand, Mode } from '../../model/problem.ts';
import { between, chance, pick, range, sample } from '../draw.ts';
import { add, type Draft } from './draft.ts';
import { allFeatures, type Feature } from './features.ts';

/** Minutes that nobody works at. */
export const waiting = (minutes: number): Mode => plainMode({ duration: minutes });

/** Demands that some of the builders meet, and their speed. */
function crewOf(draft: Draft): { crew: CrewDemand[]; speed: number } {
  const { rng, problem } = draft;
  const several = draft.wants('crew-of-several') && chance(rng, 0.4);
  // A learner alone is nobody's crew.
  const able = problem.builders.filter(({ abilities }) => !abilities[0].needsSenior);
  const crew: CrewDemand[] = [];
  let speed = 0;
  for (const { abilities } of sample(rng, able, several ? 2 : 1)) {
    const { skill, level, speed: own } = pick(rng, abilities);
    speed += own;
    const same = crew.findIndex((demand) => demand.skill === skill);
    if (same >= 0) crew[same] = { ...crew[same], count: crew[same].count + 1, minLevel: 1 };
    else crew.push({ skill, minLevel: chance(rng, 0.3) ? level : 1, count: 1 });
  }
  return { crew, speed };
}

/** Work for a crew that the fitting builders do in about so many minutes. */
export function crewed(draft: Draft, air: Air, minutes: number): Mode {
  const { rng } = draft;
  const { crew, speed } = crewOf(draft);
  const splittable = air !== 'wet' && draft.wants('splitting') && chance(rng, 0.6);
  const observed = draft.wants('observed-breaks') && chance(rng, 0.5);
  return plainMode({
    crew,
    work: Math.max(1, minutes * speed - rng.below(speed)),
    floor: chance(rng, 0.15) ? between(rng, 1, minutes + 1) : 0,
    splittable,
    breaks: observed ? 'observed' : 'relieved',
    cleanDown:
      !splittable && draft.wants('clean-down') && chance(rng, 0.5) ? between(rng, 1, 2) : 0,
    air,
    cost: draft.wants('price') && chance(rng, 0.5) ? between(rng, 1, 5) : 0,
  });
}

/** Activities that other parts of the draft will add. */
const extras: Partial<Record<Feature, number>> = {
  'choice-of-three': 3,
  'choice-of-two': 1,
  'part-moved': 1,
  barrier: 1,
  'hold-point': 1,
};

/** Three to six pieces of work, each of a refit or of none, some in two ways. */
export function work(draft: Draft): void {
  const { rng, problem } = draft;
  const more = allFeatures.reduce((sum, f) => sum + (draft.wants(f) ? (extras[f] ?? 0) : 0), 0);
  const count = Math.max(3, Math.min(between(rng, 4, 6), 9 - more));
  for (const k of range(count)) {
    const air = pick<Air>(rng, ['wet', 'wet', 'dusty', 'clean', 'clean']);
    const way = (): Mode => crewed(draft, air, between(rng, 1, air === 'wet' ? 4 : 5));
    const modes = [k > 0 && chance(rng, 0.1) ? waiting(between(rng, 1, 4)) : way()];
    if (draft.wants('modes') && chance(rng, 0.5)) modes.push(way());
    add(draft, modes[0].crew.length === 0 ? 'wait' : air, {
      refit: chance(rng, 0.05) ? null : rng.below(problem.refits.length),
      modes,
      releases: [],
      parts: [],
      fixed: null,
    });
  }
}
