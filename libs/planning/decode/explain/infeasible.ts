import type { Constraint } from '#scheduling/model/constraint.ts';
import type { Infeasibility } from '#scheduling/model/plan.ts';
import type { Compiled } from '../../compile/compile.ts';
import { rowOf, type Row } from '../../compile/trace/map.ts';
import { causeOf, taskName, type CauseSite } from './cause.ts';
import { ends } from './ends.ts';
import { moments } from '../reading/moments.ts';
import { asks, contradiction } from './sentences.ts';

/** One member of a contradiction: its row in the yard file, and what it asks for. */
export interface ContradictionMember {
  readonly constraint: Constraint;
  readonly row: Row;
  readonly text: string;
}

export interface Contradiction {
  /** Without any one member there would be a plan; otherwise that was not shown. */
  readonly irreducible: boolean;
  readonly head: string;
  readonly members: readonly ContradictionMember[];
}

/** Why there is no plan, each member of the contradiction with its row in the yard's words. */
export function contradictionOf({ problem, map }: Compiled, found: Infeasibility): Contradiction {
  const site: CauseSite = { problem, map, placed: [], cure: () => null };
  const days = String(map.horizon / 1440);
  const end = `${moments(map.origin, map.timeZone).words(problem.horizon)} (horizonDays ${days})`;
  const members = found.constraints.map((reason) => {
    const { from, to } = ends(problem, reason);
    const cause = causeOf(site, { from, to, reason, until: null });
    const names = {
      to: taskName(map, to),
      from: from === null ? null : taskName(map, from),
    };
    return { constraint: reason, row: rowOf(map, problem, reason), text: asks(cause, names, end) };
  });
  return { irreducible: found.irreducible, head: contradiction(found.irreducible), members };
}

/** Why there is no plan: a first line, then one for each yard row of the contradiction. */
export function whyNot(compiled: Compiled, found: Infeasibility): string[] {
  const { head, members } = contradictionOf(compiled, found);
  const lines = members.map(({ row, text }) => {
    const id = row.id === '' ? row.kind : `${row.kind} ${row.id}`;
    return row.path === '' ? `${id}: ${text}` : `${row.path} (${id}): ${text}`;
  });
  return [head, ...new Set(lines)];
}
