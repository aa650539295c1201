import { branchOf } from '../../branch.ts';
import type { Link, Procedure, Step } from '../../procedures.ts';

/** How far the surface has come where the next material is laid on it, as the links have it; `soft`: abraded too early. */
export type Come = 'open' | 'soft' | 'hard' | 'cured';

/**
 * A step that lays a film on the surface of an earlier one (null: on whatever the part has then),
 * with the steps in between that lay nothing, in order.
 */
export interface Meeting {
  readonly on: Step | null;
  readonly next: Step;
  readonly between: readonly Step[];
  readonly come: Come;
  /** It is laid on a film that is still open, and no link says until when. */
  readonly unclosed: boolean;
}

/** Work after a turn meets the other face of the part, of which nobody knows. */
export const isTurned = (steps: readonly Step[]): boolean =>
  steps.some(({ move }) => move?.kind === 'turn');

/** Whether a step lays a film. */
export const lays = ({ material }: Step): boolean => material !== null;

/** What is done in one way through the choices. */
interface Way {
  readonly steps: readonly Step[];
  readonly links: readonly Link[];
}

/** More ways than this through the choices of one procedure are not walked through: the first that many are. */
const MOST_WAYS = 256;

/** Every way through the choices of a procedure. */
function waysOf(procedure: Procedure): Way[] {
  const branch = branchOf(procedure);
  const linkBranch = new Map(
    procedure.choices.flatMap(({ id, branches }) =>
      branches.flatMap((one) => one.links.map((link) => [link, `${id}/${one.id}`] as const)),
    ),
  );
  let taken: ReadonlySet<string>[] = [new Set()];
  for (const { id, branches } of procedure.choices)
    taken = taken
      .flatMap((set) => branches.map((one) => new Set([...set, `${id}/${one.id}`])))
      .slice(0, MOST_WAYS);
  return taken.map((set) => {
    const done = (where: string | undefined): boolean => where === undefined || set.has(where);
    const steps = procedure.steps.filter(({ id }) => done(branch.get(id)));
    const ids = new Set(steps.map(({ id }) => id));
    const links = procedure.links.filter(
      ({ id, from, to }) => done(linkBranch.get(id)) && ids.has(from) && ids.has(to),
    );
    return { steps, links };
  });
}

/** What comes before (or after) a step: steps that lay nothing, back to (or up to) those that do. */
function reach(
  way: Way,
  from: Step,
  forwards: boolean,
): { readonly dry: ReadonlySet<string>; readonly wet: readonly Step[] } {
  const byId = new Map(way.steps.map((step) => [step.id, step]));
  const dry = new Set<string>();
  const found = new Map<string, Step>();
  const pending = [from.id];
  for (let id = pending.pop(); id !== undefined; id = pending.pop()) {
    for (const link of way.links) {
      if (link.opens === null || (forwards ? link.from : link.to) !== id) continue;
      const other = byId.get(forwards ? link.to : link.from);
      if (other === undefined || other.id === from.id || dry.has(other.id)) continue;
      if (lays(other)) found.set(other.id, other);
      else {
        dry.add(other.id);
        pending.push(other.id);
      }
    }
  }
  return { dry, wet: [...found.values()] };
}

/** Some steps in an order that the links allow; those that nothing orders as the procedure lists them. */
function ordered(way: Way, ids: ReadonlySet<string>): Step[] {
  const left = way.steps.filter(({ id }) => ids.has(id));
  const done: Step[] = [];
  while (left.length > 0) {
    const free = left.findIndex((step) =>
      way.links.every(
        ({ from, to, opens }) =>
          opens === null || to !== step.id || from === to || !left.some(({ id }) => id === from),
      ),
    );
    // Steps that wait for each other in a circle are a fault of their own.
    done.push(...left.splice(Math.max(0, free), 1));
  }
  return done;
}

const HARD: ReadonlySet<string> = new Set([
  'sandable',
  'handle',
  'tack-free',
  'bond-closes',
  'tacky-closes',
]);
/** A film that has come no further loads the abrasive. */
const SOFT: ReadonlySet<string> = new Set([
  'pot-life',
  'open-time',
  'gel',
  'tacky-opens',
  'bond-opens',
  'dust-safe',
]);
const WINDOWS: ReadonlySet<string> = new Set(['bond-closes', 'tacky-closes']);

function comeOf(way: Way, on: Step, next: Step, between: readonly Step[]): Come {
  const ids = new Set([next.id, ...between.map(({ id }) => id)]);
  const links = way.links.filter(({ from, to }) => from === on.id && ids.has(to));
  const windowed = links.some(
    ({ to, closes }) =>
      to === next.id && closes?.kind === 'milestone' && WINDOWS.has(closes.milestone),
  );
  if (windowed) return 'open';
  const opens = new Set(
    links.flatMap((link) => (link.opens?.kind === 'milestone' ? [link.opens.milestone] : [])),
  );
  if (opens.has('cured')) return 'cured';
  const abraded = between.some(
    ({ air, prepares }) => air === 'dusty' || prepares.some(({ kind }) => kind === 'abrade'),
  );
  const soft = opens.size > 0 && [...opens].every((milestone) => SOFT.has(milestone));
  if (abraded && soft) return 'soft';
  return abraded || [...opens].some((milestone) => HARD.has(milestone)) ? 'hard' : 'open';
}

/** Whether a link from one step to the other ends the time for it. */
const isClosed = (way: Way, on: Step, next: Step): boolean =>
  way.links.some(({ from, to, closes }) => from === on.id && to === next.id && closes !== null);

/** Every meeting in a procedure, each once however many ways through the choices lead to it; none across a turn. */
export function meetingsOf(procedure: Procedure): Meeting[] {
  const found = new Map<string, Meeting>();
  for (const way of waysOf(procedure)) {
    for (const next of way.steps.filter(lays)) {
      const before = reach(way, next, false);
      const ons = before.wet.length === 0 ? [null] : before.wet;
      for (const on of ons) {
        const after = on === null ? before.dry : reach(way, on, true).dry;
        const ids = new Set([...before.dry].filter((id) => after.has(id)));
        const between = ordered(way, ids);
        if (isTurned(between)) continue;
        const come = on === null ? 'cured' : comeOf(way, on, next, between);
        const unclosed = on !== null && come === 'open' && !isClosed(way, on, next);
        const known = [on?.id ?? '', next.id, come, String(unclosed)];
        const key = [...known, ...between.map(({ id }) => id)].join('\n');
        found.set(key, { on, next, between, come, unclosed });
      }
    }
  }
  return [...found.values()];
}

/** What a procedure leaves: its last films, each with the steps after it that lay nothing, in order. */
export function leavesOf(
  procedure: Procedure,
): { readonly film: Step; readonly after: readonly Step[] }[] {
  const found = new Map<string, { film: Step; after: readonly Step[] }>();
  for (const way of waysOf(procedure)) {
    for (const film of way.steps.filter(lays)) {
      const { dry, wet: later } = reach(way, film, true);
      if (later.length > 0) continue;
      const after = ordered(way, dry);
      found.set([film.id, ...after.map(({ id }) => id)].join('\n'), { film, after });
    }
  }
  return [...found.values()];
}
