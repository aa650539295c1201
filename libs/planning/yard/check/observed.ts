import { readingFaults } from '#cure/climate/reading-faults.ts';
import { hardenerFactor } from '#cure/material/hardener.ts';
import type { CureMaterial } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import type { Observation } from '../observed.ts';
import { pathOf } from '../path.ts';
import type { Yard } from '../yard.ts';
import { byId, known, uniqueIds, type Report } from './faults.ts';
import { minuteOf } from './spans.ts';

/** Readings: ids, spaces, units, overlaps. A yard has no clock: `questions/future.ts` says which are still to come. */
function readings(to: Report, yard: Yard): void {
  const spaces = byId(yard.spaces);
  uniqueIds(
    to,
    'reading',
    yard.readings.map((row, k) => ({ row, path: ['readings', k] })),
  );
  yard.readings.forEach(({ space }, k) =>
    known(to, 'space', space, spaces, ['readings', k, 'space']),
  );
  const found = readingFaults(
    yard.readings.map((one) => ({ ...one, at: minuteOf(one.at) })),
    Infinity,
  );
  const instants = new Map(
    yard.readings.map(({ at }, k) => [pathOf(['readings', k, 'at']), at] as const),
  );
  // Of a time the value is the instant that the file has.
  to.faults.push(...found.map((one) => ({ ...one, value: instants.get(one.path) ?? one.value })));
}

/** A percentage that the sheet does not allow, or of which nothing says what it does: no finding could be made of it. */
function mixFault(
  to: Report,
  { id, hardenerPercent }: Observation,
  sheet: CureMaterial | undefined,
  path: readonly PropertyKey[],
): void {
  const hardener = sheet?.hardener ?? null;
  if (hardenerPercent === null || sheet === undefined || hardener === null) return;
  const at = [...path, 'hardenerPercent'];
  if (hardener.kind === 'ratio') {
    to.add('input.field', at, `${id} gives a percentage, and ${sheet.name} is mixed in a ratio`, {
      value: hardenerPercent,
      cure: 'Leave it out.',
    });
    return;
  }
  try {
    hardenerFactor({ ...sheet, hardener: { ...hardener, used: hardenerPercent } });
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    const { code, message, cure } = error;
    to.add(code, at, `${id}: ${message}`, { value: hardenerPercent, cure });
  }
}

/** What builders found: ids, materials, spaces, order of time, hardener. */
function observations(to: Report, yard: Yard, sheets: ReadonlyMap<string, CureMaterial>): void {
  const spaces = byId(yard.spaces);
  const materials = byId(yard.materials);
  uniqueIds(
    to,
    'observation',
    yard.observations.map((row, k) => ({ row, path: ['observations', k] })),
  );
  yard.observations.forEach((one, k) => {
    const path = ['observations', k];
    known(to, 'material', one.material, materials, [...path, 'material']);
    known(to, 'space', one.space, spaces, [...path, 'space']);
    if (minuteOf(one.at) < minuteOf(one.laidAt)) {
      to.add(
        'input.field',
        [...path, 'at'],
        `${one.id} was found at ${one.at}, before the film was laid at ${one.laidAt}`,
        { value: one.at, cure: 'Correct one of the two times.' },
      );
    }
    if (one.grams !== null && one.milestone !== 'pot-life') {
      to.add(
        'input.field',
        [...path, 'grams'],
        `${one.id} gives the grams of a cup, and "${one.milestone}" is of a film`,
        { value: one.grams, cure: 'Give grams of "pot-life" only.' },
      );
    }
    mixFault(to, one, sheets.get(one.material), path);
  });
}

/** `sheets`: of the materials that can be read, each with its class under it. */
export function observedFaults(
  to: Report,
  yard: Yard,
  sheets: ReadonlyMap<string, CureMaterial>,
): void {
  readings(to, yard);
  observations(to, yard, sheets);
}
