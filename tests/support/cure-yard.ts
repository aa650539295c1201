import type { YardInput } from '#planning/yard/yard.ts';
import { smallYard } from './small-yard.ts';

/** Exactly so, as the invented sheet says. */
const figure = (value: number) => ({ value, source: 'invented', spread: 1 });

/**
 * The small yard with a mix that can be reckoned by hand: two layers of 300 g cloth on two square metres, in a
 * bay at 20 °C and 60 % humidity, with an epoxy whose pot life does not depend on its mass.
 */
export function cureYard(): YardInput {
  const small = smallYard('cure', 'Cure yard');
  const [bay, hull] = small.spaces ?? [];
  const [epoxy] = small.materials ?? [];
  const [panel] = small.procedures ?? [];
  const [layUp, fair] = panel.steps;
  const [petrel] = small.boats ?? [];
  const [winter] = petrel.refits ?? [];
  const [hatch] = winter.parts ?? [];
  return {
    ...small,
    spaces: [{ ...bay, humidity: { kind: 'held', percent: 60 } }, hull],
    materials: [
      {
        ...epoxy,
        use: 'laminating',
        surface: 'sealed',
        hardener: { kind: 'ratio', per100: figure(25) },
        massPower: figure(0),
        thicknessPower: figure(0),
        referenceGrams: figure(100),
        referenceMm: figure(40),
        resinDensity: figure(1.15),
        hardenerDensity: figure(0.95),
        mixedDensity: figure(1.1),
        shelfLifeDays: figure(365),
        maximumHumidity: { value: 50, source: 'invented', spread: 0 },
        dampAir: 'warn',
        cautions: ['Keep the lid on.'],
      },
    ],
    fabrics: [
      { id: 'cloth', name: 'Cloth 300', gramsPerM2: 300, resinRatio: 1, source: 'invented' },
    ],
    procedures: [
      {
        ...panel,
        steps: [
          {
            ...layUp,
            quantity: {
              kind: 'laminate',
              plies: [{ fabric: 'cloth', layers: 2 }],
              wastePercent: 10,
            },
          },
          { ...fair, prepares: [{ kind: 'abrade', grit: 80 }] },
        ],
      },
    ],
    boats: [
      {
        ...petrel,
        refits: [
          {
            ...winter,
            parts: [{ ...hatch, layers: [{ base: 'wood' }] }],
          },
        ],
      },
    ],
  };
}
