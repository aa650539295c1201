import type { Mode, Problem } from '#scheduling/model/problem.ts';
import { rows } from '../dzn.ts';
import type { Functions } from './functions.ts';
import { byWay, type Data } from './tables.ts';

/** The data of model/places.mzn. */
export function places(problem: Problem, modes: readonly Mode[], functions: Functions): Data {
  const { spaces, parts, barriers, activities, surfaces } = problem;
  return {
    SPACE: byWay(
      0,
      modes.map(({ space }) => (space ?? -1) + 1),
    ),
    MOVES_TO: byWay(
      0,
      modes.map(({ movesTo }) => (movesTo ?? -1) + 1),
    ),
    ACTS_ON: byWay(
      0,
      modes.map(({ barrier }) => (barrier?.barrier ?? -1) + 1),
    ),
    CLOSES: byWay(
      false,
      modes.map(({ barrier }) => barrier?.closes === true),
    ),
    DUSTY: byWay(
      false,
      modes.map(({ air }) => air === 'dusty'),
    ),
    WET: byWay(
      false,
      modes.map(({ air }) => air === 'wet'),
    ),
    SPACES: spaces.length,
    PARTS: parts.length,
    PARTS_OF: activities.map((one) => new Set(one.parts.map((p) => p + 1))),
    FIRST_PART: activities.map((one) => (one.parts.at(0) ?? -1) + 1),
    HOME: parts.map(({ space }) => space + 1),
    BARRIERS: barriers.length,
    CLOSED_AT_FIRST: barriers.map(({ closed }) => closed),
    SETTLING: spaces.map(({ settling }) => settling),
    SURFACES: surfaces.length,
    SURFACE_ACTIVITY: surfaces.map(({ activity }) => activity + 1),
    COVERED_BY: surfaces.map(({ coveredBy }) => new Set(coveredBy.map((a) => a + 1))),
    SURFACE_UNTIL: rows(
      surfaces.flatMap(({ activity, until }, x) => functions.byMode(x + 1, activity, until, false)),
      3,
    ),
    REACH: rows(
      spaces.flatMap(({ dustReaches }, q) =>
        dustReaches.map(({ space, barrier }) => [q + 1, space + 1, (barrier ?? -1) + 1]),
      ),
      3,
    ),
  };
}
