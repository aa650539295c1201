import type { DustReach } from '../../model/problem.ts';
import { between, chance, pick, range } from '../draw.ts';
import { add, amend, amendModes, lagFunctions, type Draft } from './draft.ts';
import { crewed } from './work.ts';

const SPACES = 2;

/** Spaces whose dust reaches themselves mostly, the other only in one direction, perhaps by a door. */
function spaces(draft: Draft): void {
  const { rng, problem } = draft;
  const door = draft.wants('barrier');
  if (door) problem.barriers.push({ id: 'door', closed: chance(rng, 0.3), source: 'door' });
  for (const index of range(SPACES)) {
    const reaches: DustReach[] = chance(rng, 0.8) ? [{ space: index, barrier: null }] : [];
    if (draft.wants('directed-dust') ? index === 0 : chance(rng, 0.4))
      reaches.push({ space: 1 - index, barrier: door ? 0 : null });
    problem.spaces.push({
      id: `space-${index}`,
      dustReaches: reaches,
      settling: draft.wants('settling') ? between(rng, 1, 3) : 0,
      source: `room-${index}`,
    });
  }
}

/** Parts on which several activities work, the first perhaps carried away in between. */
function parts(draft: Draft): void {
  const { rng, problem } = draft;
  if (!draft.wants('part-occupied') && !draft.wants('part-moved')) return;
  const moved = draft.wants('part-moved');
  const count = between(rng, 1, 2);
  for (const index of range(count))
    problem.parts.push({ id: `part-${index}`, space: rng.below(SPACES), source: `piece-${index}` });
  const home = problem.parts[0].space;
  const half = between(rng, 0, problem.activities.length - 1);
  problem.activities.forEach((_, a) => {
    if (chance(rng, 0.25)) return;
    const part = rng.below(count);
    const space = part === 0 && moved && a >= half ? 1 - home : problem.parts[part].space;
    amend(draft, a, (one) => ({ ...one, parts: [part] }));
    amendModes(draft, a, (mode) => ({ ...mode, space }));
  });
  if (!moved) return;
  const way = { ...crewed(draft, 'clean', between(rng, 1, 3)), movesTo: 1 - home };
  add(draft, 'carry', {
    refit: rng.below(problem.refits.length),
    modes: [{ ...way, space: chance(rng, 0.7) ? home : null }],
    releases: [],
    parts:
      problem.parts.length > 1 && problem.parts[1].space === home && chance(rng, 0.3)
        ? [0, 1]
        : [0],
    fixed: null,
  });
}

/** Somebody shuts the door (if that is chosen, sometimes), and perhaps it is opened again. */
function doors(draft: Draft): void {
  const { rng, problem } = draft;
  if (!draft.wants('barrier')) return;
  const act = (closes: boolean): number =>
    add(draft, closes ? 'shut' : 'open', {
      refit: null,
      modes: [{ ...crewed(draft, 'clean', 1), barrier: { barrier: 0, closes } }],
      releases: [],
      parts: [],
      fixed: null,
    });
  const first = act(!problem.barriers[0].closed);
  if (chance(rng, 0.5)) {
    const nothing = { id: 'leave', activities: [], lags: [] };
    const branches = [nothing, { id: 'act', activities: [first], lags: [] }];
    problem.choices.push({ id: 'door', branches, source: 'door' });
  } else if (chance(rng, 0.4)) act(problem.barriers[0].closed);
}

/** Films that dust may not reach for some time, or until somebody covers them. */
function surfaces(draft: Draft): void {
  const { rng, problem } = draft;
  const films = problem.activities.flatMap(({ modes }, a) =>
    modes.every((mode) => mode.air !== 'dusty' && mode.space !== null && mode.movesTo === null)
      ? [a]
      : [],
  );
  const film = (a: number, coveredBy: number[]): void => {
    problem.surfaces.push({
      id: `film-${problem.surfaces.length}`,
      activity: a,
      until: lagFunctions(draft, a, between(rng, 0, 8)),
      coveredBy,
      source: `film-of-${a}`,
    });
  };
  if (films.length === 0) return;
  if (draft.wants('surface-by-lag')) film(pick(rng, films), []);
  if (!draft.wants('surface-covered')) return;
  const a = pick(rng, films);
  const others = range(problem.activities.length).filter((other) => other !== a);
  film(a, [
    pick(rng, others.filter((other) => other > a || chance(rng, 0.1)).concat(others.slice(-1))),
  ]);
}

/** Where work is done, on what, and what dust may not reach. */
export function places(draft: Draft): void {
  const { rng, problem } = draft;
  spaces(draft);
  problem.activities.forEach((_, a) => {
    const space = rng.below(SPACES);
    amendModes(draft, a, (mode) => ({
      ...mode,
      space: mode.air === 'clean' && chance(rng, 0.3) ? null : space,
    }));
  });
  parts(draft);
  doors(draft);
  surfaces(draft);
}
