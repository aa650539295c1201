import { z } from 'zod';
import { personSchema } from '#planning/yard/people.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { patchOf } from '../../platform/shapes/layers.ts';
import { revision } from '../../platform/shapes/record.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';
import '../../shape-names.ts';

/** What somebody earns is the foreman's to know, and their own. */
const pay = z.int().nullable().describe('Cents; null where it is not the caller’s to know.');

export const Person = outputShape(
  'Person',
  personSchema.extend({
    hourlyCost: pay,
    overtimeHourlyExtra: pay,
    hasAccount: z.boolean().describe('Whether somebody signs in as this person.'),
    revision,
  }),
);
export const PersonPage = pageShape(Person);
export const PersonInput = inputShape('PersonInput', personSchema);
export const PersonPatch = inputShape('PersonPatch', patchOf(personSchema.omit({ id: true })));

export type Person = z.output<typeof Person.schema>;
export type PersonInput = z.output<typeof PersonInput.schema>;
export type PersonPatch = z.output<typeof PersonPatch.schema>;
