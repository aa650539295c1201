import type { Fault } from '#kernel/error.ts';
import { loadYard } from '#persistence/yard/store.ts';
import { yardFaults } from '#planning/yard/check/check.ts';
import { futureFaults } from '#planning/questions/future.ts';
import type { Observation, Reading } from '#planning/yard/observed.ts';
import type { Tx } from '../../platform/database/database.ts';
import { refuse } from './soundness.service.ts';

const mostFaults = 100;

interface Observed {
  readonly readings?: readonly Reading[];
  readonly observations?: readonly Observation[];
}

/**
 * Refuses readings that cannot be true of the yard, or of a moment that is still to come; with
 * paths into the list that was sent.
 */
export async function assertReadings(
  tx: Tx,
  yardId: string,
  readings: readonly Reading[],
): Promise<void> {
  const faults = await faultsOf(tx, yardId, { readings });
  // A logger with a wrong clock is wrong ten thousand times over.
  refuse(faults.slice(0, mostFaults));
}

/** The same of one observation, with paths into it. */
export async function assertObservation(
  tx: Tx,
  yardId: string,
  observation: Observation,
): Promise<void> {
  const faults = await faultsOf(tx, yardId, { observations: [observation] });
  refuse(
    faults.map((fault) => ({ ...fault, path: fault.path.replace(/^observations\[0\]\.?/, '') })),
  );
}

async function faultsOf(tx: Tx, yardId: string, sent: Observed): Promise<Fault[]> {
  const before = await loadYard(tx, yardId);
  const yard = {
    ...before,
    readings: [...before.readings, ...(sent.readings ?? [])],
    observations: [...before.observations, ...(sent.observations ?? [])],
  };
  const faults = [...yardFaults(yard), ...futureFaults(yard, new Date().toISOString())];
  return faults.flatMap((fault) => [
    ...ofNew(fault, 'readings', before.readings.length),
    ...ofNew(fault, 'observations', before.observations.length),
  ]);
}

/** The fault with its place among those that were sent; none where it is of one from before. */
function ofNew(fault: Fault, list: keyof Observed, known: number): Fault[] {
  const found = new RegExp(`^${list}\\[(\\d+)\\](.*)$`).exec(fault.path);
  if (found === null) return [];
  const [, digits, rest] = found;
  if (Number(digits) < known) return [];
  return [{ ...fault, path: `${list}[${String(Number(digits) - known)}]${rest}` }];
}
