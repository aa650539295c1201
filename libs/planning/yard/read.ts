import { DomainError, type Fault } from '#kernel/error.ts';
import { emptyFaults, yardFaults } from './check/check.ts';
import { shapeFaults } from './shape-faults.ts';
import { yardSchema, type Yard } from './yard.ts';

function refuse(label: string, faults: readonly Fault[]): never {
  const [first] = faults;
  const rest = faults.length - 1;
  const more = rest === 0 ? '' : ` (and ${String(rest)} more)`;
  throw new DomainError(
    first.code,
    `${label}: ${first.path === '' ? '' : `${first.path}: `}${first.message}${more}`,
    {
      cure: first.cure,
      faults,
    },
  );
}

/**
 * A yard from JSON that anyone may have written. `label` says where it came from, in
 * messages. Throws a DomainError with every fault of shape; or, where the shape is right,
 * with every fault of sense and everything that an empty yard lacks.
 */
export function readYard(json: unknown, label: string): Yard {
  const parsed = yardSchema.safeParse(json);
  if (!parsed.success) refuse(label, shapeFaults(json, parsed.error));
  const yard = parsed.data;
  const faults = [...yardFaults(yard), ...emptyFaults(yard)];
  if (faults.length > 0) refuse(label, faults);
  return yard;
}
