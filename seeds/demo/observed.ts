import type { YardInput } from '#planning/yard/yard.ts';

type ReadingInput = NonNullable<YardInput['readings']>[number];
type ObservationInput = NonNullable<YardInput['observations']>[number];

/** Of the week before: what the loggers said. Invented. */
export const readings: readonly ReadingInput[] = [
  {
    id: 'shed-tuesday',
    space: 'shed',
    at: '2026-11-24T08:00:00+01:00',
    minutes: 60,
    celsius: 15.6,
    humidity: 68,
  },
  {
    id: 'kornog-tuesday',
    space: 'kornog-inside',
    at: '2026-11-24T14:00:00+01:00',
    minutes: 120,
    celsius: 13.8,
    humidity: 74,
  },
  {
    id: 'kornog-skin-tuesday',
    space: 'kornog-inside',
    of: 'surface',
    at: '2026-11-24T16:00:00+01:00',
    celsius: 12.4,
    note: 'At the overhead, amidships',
  },
];

const cup = (
  id: string,
  laidAt: string,
  at: string,
  grams: number,
  note = '',
): ObservationInput => ({
  id,
  material: 'demo-laminating-epoxy',
  milestone: 'pot-life',
  found: 'just-now',
  space: 'bench-north',
  laidAt: `2026-11-24T${laidAt}:00+01:00`,
  at: `2026-11-24T${at}:00+01:00`,
  grams,
  note,
});

/**
 * Cups that were timed, one of them of a mix that somebody measured wrong, and how a panel took
 * to the paper next morning. Invented.
 */
export const observations: readonly ObservationInput[] = [
  cup('cup-one', '09:00', '09:49', 100),
  cup('cup-two', '10:10', '10:46', 350),
  cup('cup-three', '13:20', '14:04', 120),
  cup('cup-four', '15:00', '16:45', 100, 'Half the hardener, as it turned out'),
  {
    id: 'panel-clogs',
    material: 'demo-laminating-epoxy',
    milestone: 'sandable',
    found: 'not-yet',
    space: 'bench-south',
    laidAt: '2026-11-23T15:00:00+01:00',
    at: '2026-11-24T10:00:00+01:00',
    note: 'Clogs the paper',
  },
  {
    id: 'panel-sands',
    material: 'demo-laminating-epoxy',
    milestone: 'sandable',
    found: 'already',
    space: 'bench-south',
    laidAt: '2026-11-23T15:00:00+01:00',
    at: '2026-11-24T15:00:00+01:00',
    note: 'Dry to sand',
  },
];
