import { fault, type Fault } from '#kernel/error.ts';
import type { Yard } from '../yard.ts';
import { boatFaults } from './boats.ts';
import { bondFindings } from './bonds/bonds.ts';
import { climateFaults } from './climates.ts';
import { report } from './faults.ts';
import { materialFaults } from './materials.ts';
import { observedFaults } from './observed.ts';
import { barrierFaults, outsideFaults } from './outside.ts';
import { peopleFaults } from './people.ts';
import { procedureFaults } from './procedures.ts';
import { shelfOf } from './shelf.ts';
import { spaceFaults } from './spaces.ts';

/** Everything that makes no sense in a yard of the right shape; a yard may still be empty. */
export function yardFaults(yard: Yard): readonly Fault[] {
  const to = report();
  spaceFaults(to, yard);
  climateFaults(to, yard);
  outsideFaults(to, yard);
  barrierFaults(to, yard);
  peopleFaults(to, yard);
  const shelf = shelfOf(yard, materialFaults(to, yard));
  observedFaults(to, yard, shelf.sheets);
  procedureFaults(to, yard, shelf);
  boatFaults(to, yard);
  to.faults.push(...bondFindings(yard, shelf.sheets).faults);
  return to.faults;
}

/** What is missing before anything can be planned: one `yard.empty` fault for each thing. */
export function emptyFaults(yard: Yard): readonly Fault[] {
  const faults: Fault[] = [];
  const lacks = (path: string, message: string, cure: string): void => {
    faults.push(fault('yard.empty', path, message, { cure }));
  };
  const builders = yard.people.filter((person) => person.roles.includes('builder'));
  const refits = yard.boats.flatMap((boat) => boat.refits);
  const parts = refits.flatMap((refit) => refit.parts);
  if (builders.length === 0)
    lacks(
      'people',
      'nobody in the yard is a builder',
      'Add a person with the role builder, skills and shifts.',
    );
  else if (
    builders.every(
      (person) =>
        person.shifts.length === 0 && person.exceptions.every((e) => e.shifts.length === 0),
    )
  ) {
    lacks('people', 'no builder has a shift', 'Give at least one builder shifts.');
  }
  if (yard.spaces.length === 0)
    lacks('spaces', 'there is no space to work in', 'Add a space with its climate and room.');
  if (yard.boats.length === 0)
    lacks('boats', 'there is no boat', 'Add a boat with a refit and its parts.');
  else if (refits.length === 0)
    lacks('boats', 'no boat has a refit', 'Add a refit with its parts.');
  else if (parts.length === 0) lacks('boats', 'no refit has a part', 'Add a part to a refit.');
  else if (parts.every((part) => part.jobs.length === 0)) {
    lacks('boats', 'no part has a job', 'Give a part a job: a procedure to carry out on it.');
  }
  return faults;
}
