import { DomainError, fault } from '#kernel/error.ts';
import type { Boat, Part, Refit } from '#planning/yard/boats.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { noEdits, type NewSize, type WorkEdits } from '../edits/edits.ts';
import type { ChangeInput } from './change-input.ts';

/** Where in the yard a change is made. */
export interface Place {
  readonly boat: Boat;
  readonly refit: Refit;
  /** Null of a part that is to come. */
  readonly part: Part | null;
}

/** The boat, refit and part that a change is about. Throws `record.missing`. */
export function placeOf(yard: Yard, input: ChangeInput): Place {
  for (const boat of yard.boats) {
    for (const refit of boat.refits) {
      if (input.kind === 'add-part') {
        if (refit.id === input.refitId) return { boat, refit, part: null };
        continue;
      }
      const part = refit.parts.find(({ id }) => id === input.partId);
      if (part !== undefined) return { boat, refit, part };
    }
  }
  const [what, id] = input.kind === 'add-part' ? ['refit', input.refitId] : ['part', input.partId];
  throw new DomainError('record.missing', `There is no ${what} "${id}".`);
}

const measures = ['areaM2', 'edgeM', 'jointM'] as const;

/** Those that become others. Throws `input.field` where none does. */
function newSize(part: Part, input: Extract<ChangeInput, { kind: 'size' }>): NewSize {
  const changed = measures.filter((key) => input[key] !== undefined && input[key] !== part[key]);
  if (changed.length === 0) {
    const message = `${part.name} has these measures already`;
    throw new DomainError('input.field', `${message}.`, {
      cure: 'Give an area, a length of edge or of joint that is another.',
      faults: measures.some((key) => input[key] !== undefined)
        ? measures
            .filter((key) => input[key] !== undefined)
            .map((key) => fault('input.field', key, message, { value: input[key] }))
        : [fault('input.field', '', 'no measure is given')],
    });
  }
  return { partId: part.id, ...Object.fromEntries(changed.map((key) => [key, input[key]])) };
}

/** What a change does to the work that is left. Throws `record.missing` and `input.field`. */
export function editsOfChange(yard: Yard, input: ChangeInput): WorkEdits {
  const { part } = placeOf(yard, input);
  switch (input.kind) {
    case 'size':
      return part === null ? noEdits : { ...noEdits, resize: [newSize(part, input)] };
    case 'add-part':
      return { ...noEdits, addParts: [{ refitId: input.refitId, part: input.part }] };
    case 'drop-part':
      return { ...noEdits, dropParts: [input.partId] };
  }
}
