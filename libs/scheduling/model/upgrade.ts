import { DomainError } from '#kernel/error.ts';
import type { Plan } from './plan.ts';
import type { Activity, Mode, Problem } from './problem.ts';
import type { Activity1, Mode1, Plan1, Problem1 } from './upgrade-shapes.ts';

/** Version 1 knew forbidden starts only, and not which yard row they came from. */
function mode({ forbiddenStarts, ...kept }: Mode1, source: string): Mode {
  const forbidden = { anchor: 'start', spans: forbiddenStarts, kind: 'climate', source } as const;
  return {
    ...kept,
    consumes: [],
    cleanDown: 0,
    forbidden: forbiddenStarts.length === 0 ? [] : [forbidden],
    movesTo: null,
    barrier: null,
    slots: null,
    cost: 0,
  };
}

function activity({ release, ...kept }: Activity1): Activity {
  const { source } = kept;
  return {
    ...kept,
    modes: kept.modes.map((one) => mode(one, source)),
    releases: release > 0 ? [{ at: release, kind: 'release', source }] : [],
    parts: [],
  };
}

/** The same problem: whatever version 1 could not say is not there, or costs nothing. */
function fromVersion1(old: Problem1): Problem {
  return {
    ...old,
    version: 2,
    now: 0,
    calendars: old.calendars.map((one) => ({ ...one, overtime: [], source: one.id })),
    builders: old.builders.map((one) => ({
      ...one,
      abilities: one.abilities.map((ability) => ({ ...ability, needsSenior: false })),
      cost: 0,
      unlimited: false,
    })),
    resources: old.resources.map((one) => ({ ...one, calendar: null })),
    stocks: [],
    spaces: old.spaces.map((one) => ({
      ...one,
      dustReaches: one.dustReaches.map((space) => ({ space, barrier: null })),
    })),
    barriers: [],
    parts: [],
    slotLists: [],
    activities: old.activities.map(activity),
    lags: old.lags.map(({ fn, ...kept }) => ({ ...kept, fns: [fn] })),
    surfaces: old.surfaces.map((one, i) => ({
      ...one,
      id: `surface-${String(i)}`,
      until: [one.until],
      coveredBy: [],
    })),
    holds: [],
    refits: old.refits.map((one) => ({ ...one, handovers: [] })),
    published: null,
    tolerances: [...old.tolerances, 0],
  };
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/**
 * A stored problem of any version as one of this version, with the same plans. Only the version
 * is looked at: what is stored was written by us (and hashed); `validate` says what is wrong
 * with the values. Throws `input.malformed` where there is no version that is known.
 */
export function upgradeProblem(stored: unknown): Problem {
  const version = isRecord(stored) ? stored.version : undefined;
  if (version === 1) return fromVersion1(stored as Problem1);
  if (version === 2) return stored as Problem;
  throw new DomainError('input.malformed', 'It is no problem of version 1 or 2');
}

/**
 * A stored plan of any version as one of this version. A plan does not say its version, but
 * gives a value for each rank, of which version 1 had two: nothing cost anything then, and
 * nothing was published. Throws `input.malformed` where neither is so.
 */
export function upgradePlan(stored: unknown): Plan {
  const values = isRecord(stored) && Array.isArray(stored.values) ? stored.values.length : 0;
  if (values === 4) return stored as Plan;
  if (values !== 2)
    throw new DomainError('input.malformed', 'It is no plan with the values of two or four ranks');
  const old = stored as Plan1;
  return {
    ...old,
    placements: old.placements.map((one) => ({ ...one, overtime: false, slot: null })),
    values: [...old.values, 0, 0],
  };
}
