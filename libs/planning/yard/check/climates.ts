import { powerFaults } from '#cure/climate/power.ts';
import { settingsFaults, weatherFaults } from '#cure/climate/settings-faults.ts';
import { pathOf } from '../path.ts';
import type { ClimateChange, Space } from '../spaces.ts';
import type { Yard } from '../yard.ts';
import { uniqueIds, type Report } from './faults.ts';
import { minuteOf } from './spans.ts';

type Field = 'celsius' | 'lagHours' | 'warmerBy' | 'percent';

/** What each kind of change changes. */
const FIELDS: Readonly<Record<ClimateChange['kind'], readonly Field[]>> = {
  heater: ['celsius'],
  tent: ['lagHours', 'warmerBy'],
  dehumidifier: ['percent'],
};
const ALL: readonly Field[] = ['celsius', 'lagHours', 'warmerBy', 'percent'];

const instantOf = (minute: number): string => new Date(minute * 60_000).toISOString();
const minutes = (
  change: ClimateChange,
): Omit<ClimateChange, 'from' | 'to'> & { readonly from: number; readonly to: number } => ({
  ...change,
  from: minuteOf(change.from),
  to: minuteOf(change.to),
});

function changeFaults(to: Report, { changes }: Space, path: readonly PropertyKey[]): void {
  uniqueIds(
    to,
    'change',
    changes.map((row, k) => ({ row, path: [...path, 'changes', k] })),
  );
  changes.forEach((change, k) => {
    const here = [...path, 'changes', k];
    for (const field of ALL) {
      if (change[field] === null || FIELDS[change.kind].includes(field)) continue;
      to.add(
        'input.field',
        [...here, field],
        `${change.name} is a ${change.kind}, which has no ${field}`,
        {
          value: change[field],
          cure: `Leave it out; a ${change.kind} has ${FIELDS[change.kind].join(' and ')}.`,
        },
      );
    }
    if (change.unvented && change.kind !== 'heater') {
      to.add(
        'input.field',
        [...here, 'unvented'],
        `${change.name} is a ${change.kind} and burns nothing`,
        {
          value: true,
          cure: 'Leave it out, or make it a heater.',
        },
      );
    }
  });
}

/** Climates of spaces, what changes them, what it draws together, and the outdoor table. */
export function climateFaults(to: Report, yard: Yard): void {
  yard.spaces.forEach((space, s) => {
    const path = ['spaces', s];
    changeFaults(to, space, path);
    const settings = { ...space, changes: space.changes.map(minutes) };
    to.faults.push(...settingsFaults(settings, pathOf(path)));
    if (space.humidity?.kind === 'outdoors' && (yard.outdoor?.humidity ?? []).length === 0) {
      to.add(
        'yard.reference',
        [...path, 'humidity'],
        `the humidity of ${space.name} follows the outdoors, of which the yard gives none`,
        {
          value: space.humidity.kind,
          cure: 'Add the hourly column `outdoor.humidity`, or hold it.',
        },
      );
    }
  });
  if (yard.outdoor !== null)
    to.faults.push(...weatherFaults({ ...yard.outdoor, start: 0 }, 'outdoor'));
  if (yard.powerWatts === null) return;
  const uses = yard.spaces.flatMap((space, s) =>
    space.changes.map((change, k) => ({
      ...minutes(change),
      path: pathOf(['spaces', s, 'changes', k]),
    })),
  );
  to.faults.push(...powerFaults(uses, yard.powerWatts, instantOf));
}
