import type { YardInput } from '#planning/yard/yard.ts';
import { smallYard } from './small-yard.ts';

/** The small yard with so much work that a search can go on improving for as long as it may. */
export function largeYard(id: string): YardInput {
  const yard = smallYard(id, 'Large yard');
  const [boat] = yard.boats ?? [];
  const [refit] = boat.refits ?? [];
  const [part] = refit.parts ?? [];
  const bram = yard.people?.find((person) => person.id === 'bram');
  if (bram === undefined) throw new Error('the small yard has a builder');
  const parts = Array.from({ length: 14 }, (_, k) => ({
    ...part,
    id: `panel-${String(k)}`,
    name: `Panel ${String(k)}`,
    areaM2: 1 + ((k * 7) % 5),
    jobs: [{ id: `job-${String(k)}`, procedure: 'panel' }],
  }));
  return {
    ...yard,
    people: [...(yard.people ?? []), { ...bram, id: 'cato', name: 'Cato', email: null }],
    boats: [0, 1].map((b) => ({
      ...boat,
      id: `boat-${String(b)}`,
      refits: [
        {
          ...refit,
          id: `refit-${String(b)}`,
          parts: parts
            .filter((_, k) => k % 2 === b)
            .map((one) => ({ ...one, id: `${one.id}-${String(b)}` })),
        },
      ],
    })),
  };
}
