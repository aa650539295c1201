import { DomainError, fault } from '#kernel/error.ts';
import {
  procedurePreview,
  type PreviewTask,
  type ProcedurePreview as Preview,
} from '#planning/questions/procedure-preview.ts';
import type { Part } from '#planning/yard/boats.ts';
import type { Procedure } from '#planning/yard/procedures.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { refuse, refuseFaults, withRecord } from '../soundness/soundness.service.ts';
import type { ProcedurePreview, ProcedurePreviewInput } from './preview.contract.ts';

/** Refuses a draft as the yard would refuse it as a version, with paths below `draft`. */
export function assertDraft(yard: Yard, procedure: Procedure): void {
  try {
    refuseFaults(withRecord(yard, 'procedures', procedure));
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    refuse(error.faults.map((one) => ({ ...one, path: `draft.${one.path}` })));
  }
}

/** What would be done on a part, or on something of these sizes. */
export function previewOf(
  yard: Yard,
  procedure: Procedure,
  { part: partId, ...asked }: ProcedurePreviewInput,
): ProcedurePreview {
  const part = partId === undefined ? undefined : partOf(yard, partId);
  for (const field of ['space', 'destination'] as const) {
    const id = asked[field];
    if (id !== undefined && !yard.spaces.some((one) => one.id === id)) {
      throw unknown(field, 'space', id);
    }
  }
  const sizes = {
    areaM2: asked.areaM2 ?? part?.areaM2 ?? 0,
    edgeM: asked.edgeM ?? part?.edgeM ?? 0,
    jointM: asked.jointM ?? part?.jointM ?? 0,
  };
  const preview = procedurePreview(yard, {
    procedure,
    ...sizes,
    space: asked.space ?? part?.space ?? '',
    destination: asked.destination ?? null,
  });
  return {
    procedureId: procedure.id,
    version: asked.draft === undefined ? procedure.version : null,
    name: procedure.name,
    ...sizes,
    leastMinutes: preview.workMinutes.least,
    mostMinutes: preview.workMinutes.most,
    price: priceOf(preview),
    tasks: preview.tasks.map((one) => showTask(yard, one)),
    choices: preview.choices.map((choice) => ({
      ...choice,
      branches: choice.branches.map((branch) => ({ ...branch })),
    })),
  };
}

const priceOf = ({ tasks }: Preview): number =>
  tasks.reduce((sum, { task, way }) => (way === null ? sum + task.price : sum), 0);

function unknown(path: string, kind: string, id: string): DomainError {
  const found = fault('yard.reference', path, `There is no ${kind} "${id}" in the yard`, {
    value: id,
  });
  return new DomainError(found.code, `${path}: ${found.message}`, { faults: [found] });
}

function partOf({ boats }: Yard, id: string): Part {
  const parts = boats.flatMap(({ refits }) => refits.flatMap((refit) => refit.parts));
  const found = parts.find((part) => part.id === id);
  if (found === undefined) throw unknown('part', 'part', id);
  return found;
}

type Named = readonly { readonly id: string; readonly name: string }[];
const nameIn = (records: Named, id: string | null): string | null =>
  records.find((record) => record.id === id)?.name ?? null;

function showTask(
  yard: Yard,
  { task, mix, lacks, way, waits }: PreviewTask,
): ProcedurePreview['tasks'][number] {
  const { stepId, name, workMinutes, floorMinutes, cleanDownMinutes, minLevel } = task;
  const { crewMin, crewMax, air, oneBatch, price } = task;
  return {
    ...{ stepId, name, workMinutes, floorMinutes, cleanDownMinutes, minLevel },
    ...{ crewMin, crewMax, air, oneBatch, price, lacks },
    isHoldPoint: task.skill === null,
    skill: nameIn(yard.skills, task.skill),
    space: nameIn(yard.spaces, task.space),
    movesTo: nameIn(yard.spaces, task.movesTo),
    material: nameIn(yard.materials, task.material),
    mix: mix && { ...mix, fabrics: mix.fabrics.map((fabric) => ({ ...fabric })) },
    prepares: task.prepares.map((one) => ({ ...one })),
    tools: task.tools.map(({ tool, count }) => ({ name: nameIn(yard.tools, tool) ?? tool, count })),
    consumes: task.consumes.map(({ stock, amount }) => ({
      name: nameIn(yard.stocks, stock) ?? stock,
      amount,
      unit: yard.stocks.find(({ id }) => id === stock)?.unit ?? '',
    })),
    way: way && { ...way },
    waits: waits.map((wait) => ({ ...wait, way: wait.way && { ...wait.way } })),
  };
}
