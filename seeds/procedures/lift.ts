import { clean, link, type ProcedureInput } from './step.ts';

/** A boat slung and lifted onto the lorry when the crane comes. */
export const craneLift: ProcedureInput = {
  id: 'crane-lift',
  version: 1,
  name: 'Lift by crane',
  steps: [
    clean(
      'ready',
      'Clear the deck and rig the slings',
      'joinery',
      { fixed: 90 },
      { crewMin: 1, crewMax: 2 },
    ),
    clean(
      'lift',
      'Lift her onto the lorry',
      'joinery',
      { fixed: 120 },
      { crewMin: 2, crewMax: 2, splittable: false, floorMinutes: 45, slots: 'crane' },
    ),
  ],
  links: [link('ready', 'lift')],
};
