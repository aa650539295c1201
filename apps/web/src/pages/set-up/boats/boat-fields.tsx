import type { Form } from '../../../form/form.ts';
import { boats as texts } from '../../../texts/boats.ts';
import { OptionalChoice } from '../lists/optional-choice.tsx';
import { optionsOf, useList } from '../lists/lists.ts';
import type { BoatValues } from './requests.ts';

/** What a boat is, but for its name. */
export function BoatFields({ form }: { readonly form: Form<BoatValues> }) {
  const people = useList('people');
  const owners = people.data?.filter(({ roles }) => roles.includes('owner'));
  return (
    <OptionalChoice
      label={texts.owner}
      hint={texts.ownerHint}
      none={texts.noOwner}
      value={form.values.owner}
      options={optionsOf(owners)}
      fault={form.faultAt('owner')}
      onValue={(owner) => form.set('owner', owner)}
    />
  );
}
