import type { Random } from '#kernel/random.ts';
import type { Assignment } from '../../model/plan.ts';
import type { Mode } from '../../model/problem.ts';
import { between, chance, pick, range, sample } from '../draw.ts';
import type { Draft, Ground, Place } from './ground.ts';
import { crewed, type Crewed, type Sort } from './modes.ts';
import { settle } from './settle.ts';
import { share } from './world.ts';

/** An activity with its place in the planted plan. */
export interface Sketch {
  readonly modes: readonly Mode[];
  readonly mode: number;
  readonly crew: readonly Assignment[];
  readonly parts: readonly number[];
  /** Null where it is absent. */
  readonly place: Place | null;
  readonly overtime: boolean;
  readonly frozen: boolean;
  /** Minutes after the finish for which the air was kept clear of dust; null without a film. */
  readonly film: number | null;
}

/** What is decided of an activity before it has a place. */
export interface Intent {
  readonly sort: Sort;
  readonly parts: readonly number[];
  /** What all its ways have in common. */
  readonly given: Partial<Mode>;
  readonly film: number | null;
  readonly frozen: boolean;
}

const assignments = ({ builders, serves }: Crewed): Assignment[] =>
  builders.map((builder, i) => ({ builder, demand: serves[i] }));

function waysOf(rng: Random, g: Ground, { sort, given, film }: Intent): Crewed[] {
  const count = sort === 'word' ? 1 : pick(rng, [1, 1, 1, 2, 2, 3]);
  return range(count).map((_, way) => {
    const one = crewed(rng, g.world, sort);
    // Another way may be done elsewhere, unless it is what the place is about.
    const { space: here, ...rest } = given;
    const fixed = here !== undefined && (way === 0 || chance(rng, 0.7));
    let space = fixed ? here : one.mode.space;
    // A film is somewhere.
    if (film !== null) space ??= rng.below(g.world.spaces.length);
    return { ...one, mode: { ...one.mode, ...rest, space } };
  });
}

/** Work that has happened: anybody, at any hour, for any time. */
function happened(rng: Random, g: Ground, intent: Intent, ways: readonly Crewed[]): Draft {
  const mode = rng.below(ways.length);
  return {
    mode: ways[mode].mode,
    builders: sample(rng, range(g.world.builders.length), between(rng, 1, 2)),
    minutes: between(rng, 1, share(g.world.clock, 0.2)),
    parts: intent.parts,
    overtime: false,
    frozen: true,
    film: intent.film,
  };
}

/** The activity placed in [from, until), or null where there is no room for it. */
export function place(
  rng: Random,
  g: Ground,
  intent: Intent,
  from: number,
  until: number,
): Sketch | null {
  const ways = waysOf(rng, g, intent);
  const own = intent.given.space;
  const here = own === undefined ? 0 : ways.findIndex(({ mode }) => mode.space === own);
  const mode = own === undefined ? rng.below(ways.length) : here;
  const { parts, film, frozen } = intent;
  const draft: Draft = frozen
    ? happened(rng, g, intent, ways)
    : {
        mode: ways[mode].mode,
        builders: ways[mode].builders,
        minutes: ways[mode].minutes,
        parts,
        overtime: ways[mode].builders.length > 0 && chance(rng, 0.3),
        frozen,
        film,
      };
  const found = settle(g, draft, from, until);
  if (!found) return null;
  return {
    modes: ways.map((way) => way.mode),
    mode: frozen ? ways.findIndex((way) => way.mode === draft.mode) : mode,
    crew: frozen
      ? draft.builders.map((builder) => ({ builder, demand: 0 }))
      : assignments(ways[mode]),
    parts,
    place: found,
    overtime: draft.overtime,
    frozen,
    film,
  };
}

/** The activity of a branch that is not taken. */
export const absent = (rng: Random, g: Ground, intent: Intent): Sketch => ({
  modes: waysOf(rng, g, intent).map(({ mode }) => mode),
  mode: 0,
  crew: [],
  parts: intent.parts,
  place: null,
  overtime: false,
  frozen: false,
  film: intent.film,
});
