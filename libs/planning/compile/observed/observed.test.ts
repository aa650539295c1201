import { describe, expect, it } from 'vitest';
import { DomainError, type Fault } from '#kernel/error.ts';
import { heatedTo, smallYard } from '../../testing/small-yard.ts';
import { observationSchema, type Observation } from '../../yard/observed.ts';
import type { Yard } from '../../yard/yard.ts';
import { observedMaterials } from './observed.ts';
import { frameOf } from '../frame/time.ts';

const of = (change: (yard: Yard) => void) => {
  const yard = smallYard(change);
  return observedMaterials(yard, frameOf(yard, undefined, undefined));
};

/** A cup that gelled so many minutes after it was mixed at 08:00 of a day in October. */
function cup(day: number, grams: number, minutes: number): Observation {
  const mixed = Date.parse(`2026-10-${String(day)}T08:00:00Z`);
  return observationSchema.parse({
    id: `cup-${String(day)}`,
    material: 'resin',
    milestone: 'pot-life',
    found: 'just-now',
    space: 'shop',
    laidAt: new Date(mixed).toISOString(),
    at: new Date(mixed + minutes * 60_000).toISOString(),
    grams,
  });
}

describe('what a yard has observed', () => {
  it('is the mass law of its own cups', () => {
    // The sheet's cup of 100 g lasts 30 min at 20 degrees; with a power of 0.5 one of 400 g lasts 15.
    const cups = [cup(10, 100, 30), cup(11, 400, 15), cup(12, 100, 30), cup(13, 400, 15)];
    const { materials, calibrations, massFits } = of((yard) => {
      yard.observations = cups;
      yard.materials[0].milestones[0].spread = 1.3;
    });
    expect(massFits.get('resin')?.power).toBeCloseTo(0.5, 6);
    const power = materials.get('resin')?.mass.massPower;
    expect(power).toMatchObject({ trust: 'measured', overridden: true });
    expect(power?.value).toBeCloseTo(0.5, 6);
    // By that law all four are as the sheet says.
    expect(calibrations.get('resin')?.map(({ milestone }) => milestone)).toEqual(['pot-life']);
    expect(calibrations.get('resin')?.[0].factor).toBeCloseTo(1, 2);
  });

  it('does not replace a power that the yard has stated, nor is read from like masses', () => {
    const cups = [cup(10, 100, 30), cup(11, 400, 15), cup(12, 100, 30)];
    const stated = of((yard) => {
      yard.observations = cups;
      const source = 'made up for tests';
      yard.materials[0].massPower = { value: 0.2, source, trust: 'sheet', spread: 1 };
    });
    expect(stated.massFits.size).toBe(0);
    expect(stated.materials.get('resin')?.mass.massPower.value).toBe(0.2);
    const alike = of((yard) => {
      yard.observations = [cup(10, 100, 30), cup(11, 110, 15), cup(12, 100, 30)];
    });
    expect(alike.massFits.size).toBe(0);
  });

  it('of a cup is measured at the temperature of the resin’s store', () => {
    const factor = (keptIn: string | null): number =>
      of((yard) => {
        const climate = heatedTo(10);
        yard.spaces.push({ ...yard.spaces[0], id: 'store', name: 'Store', climate });
        yard.observations = [cup(10, 100, 60), cup(11, 100, 60), cup(12, 100, 60)];
        const [material] = yard.materials;
        material.keptIn = keptIn;
        material.keptLagHours = 5;
        material.milestones[0].spread = 2.5;
      }).calibrations.get('resin')?.[0].factor ?? 0;
    // Sixty minutes is what the sheet says of 10 degrees, and twice what it says of 20.
    expect(factor('store')).toBeCloseTo(1, 2);
    expect(factor(null)).toBeGreaterThan(1.5);
  });

  it('that cannot be is named', () => {
    let faults: readonly Fault[] = [];
    try {
      of((yard) => {
        const seen = cup(11, 100, 30);
        yard.observations = [cup(10, 100, 30), { ...seen, at: '2026-10-11T07:00:00Z' }];
      });
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      faults = error.faults;
    }
    expect(faults).toMatchObject([
      { code: 'cure.reading', path: 'observations[1]', value: 'cup-11' },
    ]);
  });
});
