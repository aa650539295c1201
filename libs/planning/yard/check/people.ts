import { shiftFaults } from '#calendar/shifts/faults.ts';
import { pathOf } from '../path.ts';
import type { Yard } from '../yard.ts';
import { byId, known, uniqueIds, type Report } from './faults.ts';
import { hoursFaults } from './spans.ts';

/** Ids, skills, shifts and breaks of people. */
export function peopleFaults(to: Report, yard: Yard): void {
  uniqueIds(
    to,
    'skill',
    yard.skills.map((row, k) => ({ row, path: ['skills', k] })),
  );
  uniqueIds(
    to,
    'person',
    yard.people.map((row, k) => ({ row, path: ['people', k] })),
  );
  const skills = byId(yard.skills);
  yard.people.forEach((person, p) => {
    const path = ['people', p];
    const seen = new Set<string>();
    person.abilities.forEach((ability, a) => {
      const at = [...path, 'abilities', a, 'skill'];
      known(to, 'skill', ability.skill, skills, at);
      if (seen.has(ability.skill)) {
        to.add('yard.duplicate', at, `${person.name} has the skill "${ability.skill}" twice`, {
          value: ability.skill,
        });
      }
      seen.add(ability.skill);
    });
    hoursFaults(to, person.name, person.overtime, [...path, 'overtime']);
    const faults = shiftFaults(person.shifts, person.exceptions, {
      pattern: pathOf([...path, 'shifts']),
      exceptions: pathOf([...path, 'exceptions']),
    });
    for (const found of faults)
      to.faults.push({ ...found, message: `${person.name}: ${found.message}` });
  });
}
