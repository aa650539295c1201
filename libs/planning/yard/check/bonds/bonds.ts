import type { CureMaterial } from '#cure/material/material.ts';
import { fault, type Fault } from '#kernel/error.ts';
import type { Procedure, Step } from '../../procedures.ts';
import { pathOf } from '../../path.ts';
import type { Yard } from '../../yard.ts';
import { coatOf, judged, surfaceOf, unclosedTold, type Placed } from './judge.ts';
import { meetingsOf } from './meetings.ts';
import { partFindings } from './parts.ts';

type Path = readonly PropertyKey[];

/** Something to be looked at that does not keep anybody from planning. */
export interface Warning {
  readonly path: string;
  readonly message: string;
  /** What says so; null where it is the yard's own data. */
  readonly source: string | null;
}

export interface BondFindings {
  readonly faults: readonly Fault[];
  readonly warnings: readonly Warning[];
}

/** Coats of a procedure on coats of the same procedure. */
function procedureFindings(
  procedure: Procedure,
  path: Path,
  sheets: ReadonlyMap<string, CureMaterial>,
): Placed[] {
  const sheetOf = ({ material }: Step): CureMaterial | undefined => sheets.get(material ?? '');
  return meetingsOf(procedure).flatMap((meeting) => {
    const { on, next, between, come } = meeting;
    const under = on === null ? undefined : sheetOf(on);
    const over = sheetOf(next);
    if (on === null || under === undefined || over === undefined) return [];
    const prepares = between.flatMap((step) => step.prepares);
    const by =
      between.length === 0 ? '' : ` by way of ${between.map(({ name }) => name).join(', ')}`;
    const what = `${procedure.name}: ${next.name} on ${on.name}${by}`;
    const coat = coatOf(next, over);
    const surface = surfaceOf(under, come, prepares);
    const judgements = judged(what, surface, coat, prepares.length > 0);
    const wrong = judgements.some((one) => one.wrong);
    const told = wrong ? [] : unclosedTold(what, meeting, surfaceOf(under, 'hard', prepares), coat);
    return [...judgements, ...told].map((judgement) => ({
      path: [...path, 'steps', procedure.steps.indexOf(next)],
      value: next.id,
      judgement,
    }));
  });
}

/**
 * What the rules of bonding have against the yard's procedures and jobs: coats on coats of one
 * procedure, first coats on what the part is made of, and on what earlier jobs of it leave.
 */
export function bondFindings(yard: Yard, sheets: ReadonlyMap<string, CureMaterial>): BondFindings {
  const all = [
    ...yard.procedures.flatMap((procedure, p) =>
      procedureFindings(procedure, ['procedures', p], sheets),
    ),
    ...partFindings(yard, sheets),
  ];
  const told = new Set<string>();
  const fresh = all.filter(({ path, judgement }) => {
    const key = `${pathOf(path)}\n${judgement.message}`;
    const first = !told.has(key);
    told.add(key);
    return first;
  });
  return {
    faults: fresh.flatMap(({ path, value, judgement: { wrong, message, cure, source } }) =>
      wrong ? [fault('cure.bond', pathOf(path), `${message} (${source})`, { value, cure })] : [],
    ),
    warnings: fresh.flatMap(({ path, judgement: { wrong, message, cure, source } }) =>
      wrong ? [] : [{ path: pathOf(path), message: `${message} ${cure}`, source }],
    ),
  };
}
