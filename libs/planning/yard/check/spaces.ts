import { isZone } from '#calendar/zone.ts';
import { show } from '../path.ts';
import type { Yard } from '../yard.ts';
import { byId, known, uniqueIds, type Report } from './faults.ts';
import { absenceFaults, hoursFaults } from './spans.ts';

/** The time zone, spaces, their dust and climates, tools. */
export function spaceFaults(to: Report, yard: Yard): void {
  if (!isZone(yard.timeZone)) {
    to.add('input.field', ['timeZone'], `${show(yard.timeZone)} is not a time zone`, {
      value: yard.timeZone,
      cure: 'Use an IANA name such as Europe/London.',
    });
  }
  uniqueIds(
    to,
    'space',
    yard.spaces.map((row, k) => ({ row, path: ['spaces', k] })),
  );
  uniqueIds(
    to,
    'tool',
    yard.tools.map((row, k) => ({ row, path: ['tools', k] })),
  );
  const spaces = byId(yard.spaces);
  yard.tools.forEach(({ name, away, hours }, t) => {
    absenceFaults(to, name, away, ['tools', t, 'away']);
    hoursFaults(to, name, hours, ['tools', t, 'hours']);
  });
  yard.spaces.forEach((space, s) => {
    absenceFaults(to, space.name, space.taken, ['spaces', s, 'taken']);
    hoursFaults(to, space.name, space.hours, ['spaces', s, 'hours']);
    space.dustReaches.forEach((other, k) =>
      known(to, 'space', other, spaces, ['spaces', s, 'dustReaches', k]),
    );
    if (space.climate.kind === 'outdoors' && yard.outdoor === null) {
      to.add(
        'yard.reference',
        ['spaces', s, 'climate'],
        `${space.name} follows the outdoors, but the yard has no outdoor temperatures`,
        {
          value: space.climate.kind,
          cure: 'Add the hourly table `outdoor`, or give the space set-points.',
        },
      );
    }
  });
}
