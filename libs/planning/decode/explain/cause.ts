import type { Constraint } from '#scheduling/model/constraint.ts';
import type { Placement } from '#scheduling/model/plan.ts';
import type { Lag, Mode, Problem } from '#scheduling/model/problem.ts';
import { rowOf, type PlanMap } from '../../compile/trace/map.ts';
import { becoming } from '../reading/film.ts';
import { refusalOf, type Cause, type Cure } from './sentences.ts';

/** Where causes are looked up: in what is stored with a plan. */
export interface CauseSite {
  readonly problem: Problem;
  readonly map: PlanMap;
  /** Placement by activity; empty where there is no plan. */
  readonly placed: readonly (Placement | undefined)[];
  /** How the film that a lag reads came to be ready at a minute, where that is known. */
  readonly cure: (lag: Lag, until: number) => Cure | null;
}

/** A constraint between two activities (`from` null: the beginning) until a minute. */
export interface Held {
  readonly from: number | null;
  readonly to: number;
  readonly reason: Constraint;
  readonly until: number | null;
}

/** What a row is called; its source where it has no name. */
const named = ({ rows }: PlanMap, source: string): string =>
  Object.hasOwn(rows, source) ? rows[source].name : source;

/** `Bed on foam (Main bulkhead)`. */
export const taskName = (map: PlanMap, activity: number): string =>
  named(map, `task:${map.tasks[activity]}`);

/** What an opening waits for a film to be, by the lag's kind; that of no film is not among them. */
const states: Readonly<Partial<Record<string, string>>> = {
  ...becoming,
  tack: becoming['tacky-opens'],
  bond: becoming['bond-opens'],
  sand: becoming.sandable,
  cure: becoming.cured,
};

function lagCause(site: CauseSite, lag: Lag, { to, until }: Held): Cause {
  if (lag.bound === 'close' && lag.from === lag.to) return { kind: 'batch', window: lag.kind };
  if (lag.bound === 'close')
    return { kind: lag.from === to ? 'not-before' : 'closing', window: lag.kind };
  if (lag.kind === 'order' || lag.kind === 'sequence') return { kind: lag.kind };
  const state = states[lag.kind];
  if (state !== undefined)
    return { kind: 'film', state, cure: until === null ? null : site.cure(lag, until) };
  const [fn] = lag.fns;
  return { kind: 'wait', minutes: fn.kind === 'constant' ? Math.max(0, fn.minutes) : 0 };
}

const modeOf = ({ problem, placed }: CauseSite, activity: number): Mode =>
  problem.activities[activity].modes[placed.at(activity)?.mode ?? 0];

/** The space that the one waits for the other to bring the part to; null where it is only busy. */
function brought(site: CauseSite, { from, to }: Held, part: number): number | null {
  if (from === null || !site.problem.activities[from].parts.includes(part)) return null;
  const { movesTo } = modeOf(site, from);
  return movesTo !== null && movesTo === modeOf(site, to).space ? movesTo : null;
}

function releaseCause(kind: string, name: string): Cause {
  if (kind === 'delivery') return { kind, delivery: name };
  return { kind: kind === 'word' || kind === 'now' ? kind : 'boat' };
}

/** What a constraint is, in the yard's names. */
export function causeOf(site: CauseSite, held: Held): Cause {
  const { problem, map } = site;
  const { reason, to } = held;
  const { name } = rowOf(map, problem, reason);
  const spaceName = (space: number): string => named(map, `space:${map.spaces[space]}`);
  switch (reason.kind) {
    case 'lag':
      return lagCause(site, problem.lags[reason.lag], held);
    case 'builder':
    case 'calendar':
      return { kind: reason.kind, person: name };
    case 'resource':
      return map.resources[reason.resource].kind === 'room'
        ? { kind: 'room', space: name }
        : { kind: 'tool', tool: name };
    case 'hours':
      return { kind: 'hours', what: name };
    case 'stock':
      return { kind: 'stock', stock: name };
    case 'part': {
      const space = brought(site, held, reason.part);
      return space === null
        ? { kind: 'part', part: name }
        : { kind: 'place', part: name, space: spaceName(space) };
    }
    case 'dust': {
      const kind = modeOf(site, to).air === 'dusty' ? 'open-film' : 'dust';
      return { kind, space: spaceName(reason.to) };
    }
    case 'barrier':
      return { kind: 'barrier', barrier: name };
    case 'hold': {
      const { id } = map.resources[problem.holds[reason.hold].resource];
      return { kind: 'hold', tool: named(map, `tool:${id}`) };
    }
    case 'release':
      return releaseCause(problem.activities[reason.activity].releases[reason.release].kind, name);
    case 'forbidden': {
      const { space, forbidden } = problem.activities[reason.activity].modes[reason.mode];
      return {
        kind: 'climate',
        refusal: refusalOf(forbidden[reason.forbidden].kind),
        material: name,
        space: space === null ? '' : spaceName(space),
      };
    }
    case 'slots':
      return { kind: 'slots', list: name };
    case 'choice':
      return { kind: 'choice', choice: name };
    case 'crew':
    case 'surface':
    case 'fixed':
    case 'horizon':
      return { kind: reason.kind };
  }
}
