import { describe, expect, it } from 'vitest';
import { DomainError, type Fault } from '#kernel/error.ts';
import { check } from '#scheduling/checker/check.ts';
import { solve } from '#scheduling/solve.ts';
import { compiled } from '../../testing/compiled.ts';
import { heatedTo } from '../../testing/small-yard.ts';
import { hardenerSchema, type MaterialFigure } from '../../yard/materials.ts';
import type { Yard } from '../../yard/yard.ts';

type Change = (yard: Yard) => void;

const figure = (value: number): MaterialFigure => ({
  value,
  source: 'made up for tests',
  trust: 'sheet',
  spread: 1,
});

/**
 * Two who can coat, of whom one may; 100 g/m2 over 2 m2 in one cup: 200 g, twice the sheet's, of
 * which the pot life halves. 28 builder-minutes.
 */
const yardWith =
  (...changes: readonly Change[]): Change =>
  (yard) => {
    yard.people.push({ ...yard.people[0], id: 'bo', name: 'Bo' });
    const [, one] = yard.procedures[0].steps;
    one.oneBatch = true;
    one.quantity = { kind: 'coat', gramsPerM2: 100, coats: 1, wastePercent: 0 };
    Object.assign(one.effort, { fixed: 0, perM2: 14 });
    const [material] = yard.materials;
    Object.assign(material, {
      referenceGrams: figure(100),
      referenceMm: figure(50),
      massPower: figure(1),
      thicknessPower: figure(0),
      mixedDensity: figure(1),
    });
    material.hardener = hardenerSchema.parse({
      kind: 'percent',
      usual: figure(2),
      used: 2,
      warn: { low: 0.6, high: 3 },
      block: { low: 0.5, high: 4 },
      effect: figure(1),
    });
    for (const change of changes) change(yard);
  };

const hands = (yard: Yard): void => {
  yard.procedures[0].steps[1].crewMax = 2;
};
const heat =
  (celsius: number): Change =>
  (yard) => {
    yard.spaces[0].climate = heatedTo(celsius);
  };
const harden =
  (used: number): Change =>
  ({ materials: [{ hardener }] }) => {
    if (hardener?.kind === 'percent') hardener.used = used;
  };
const band =
  (bandC: number): Change =>
  (yard) => {
    yard.spaces[0].bandC = bandC;
  };

function faultOf(...changes: readonly Change[]): Fault | null {
  try {
    compiled(yardWith(...changes));
  } catch (error) {
    if (error instanceof DomainError) return error.faults[0];
    throw error;
  }
  return null;
}

describe('a batch that no crew that is allowed can spread', () => {
  // 200 g last 15 min at 20 degrees and take one pair of hands 28. At 10.5 degrees they last
  // 30 exp(-5753 (1/283.15 - 1/283.65)) = 28.9 min, at 11 degrees 27.9; with 1.05 % of the usual
  // 2 % hardener 15 * 2/1.05 = 28.6 min, with 1.1 % 27.3.
  it('is told with what would do, each by itself', () => {
    expect(faultOf()).toMatchObject({
      code: 'cure.batch',
      path: 'procedures[0].steps[1]',
      value: 'lid.one',
      message:
        '"Coat one" on Lid (lid.one) is one batch, which lasts 15 min at the most, and takes 28 min to spread with one pair of hands: it would do with 2 pairs of hands, or with resin at 10.5 °C, or with 1.05 % hardener',
    });
  });

  it.each<[string, Change, Change]>([
    ['the hands', hands, () => undefined],
    ['the temperature', heat(10.5), heat(11)],
    ['the hardener', harden(1.05), harden(1.1)],
  ])('has a plan with %s it was told of, and not with less', (_, enough, tooLittle) => {
    expect(faultOf(tooLittle)?.code).toBe('cure.batch');
    const { problem } = compiled(yardWith(enough));
    const { plan } = solve(problem, { seed: 1, iterations: 16 });
    if (plan === null) throw new Error('no plan');
    expect(check(problem, plan)).toEqual([]);
    const one = plan.placements.find(({ activity }) => activity === 1);
    expect(one?.crew).toHaveLength(enough === hands ? 2 : 1);
  });

  it('is told of a forecast that may be as much off', () => {
    // As warm as 22 degrees, of which the cup lasts the less; 10.5 are surely kept at 8.5.
    const { message } = faultOf(band(2)) ?? {};
    expect(message).toContain('with resin at 8.5 °C');
    expect(faultOf(band(2), heat(8.5))).toBeNull();
    expect(faultOf(band(2), heat(9))?.code).toBe('cure.batch');
    // With 6 degrees either way no forecast does that is surely not too cold.
    expect(faultOf(band(6))?.message).not.toContain('°C');
  });

  it('is not told of hours at which it could be mixed', () => {
    // Ten degrees on Tuesday: the batch waits for that day.
    const tuesday: Change = (yard) => {
      const setPoints = [20, 10, 20].map((celsius, k) => ({
        weekdays: [k + 1],
        from: '00:00',
        celsius,
      }));
      yard.spaces[0].climate = { kind: 'heated', setPoints, lagHours: 0 };
    };
    const { problem } = compiled(yardWith(tuesday));
    const { plan } = solve(problem, { seed: 1, iterations: 16 });
    const start = plan?.placements.find(({ activity }) => activity === 1)?.start ?? 0;
    expect(Math.floor((start + 480) / 1440)).toBe(1);
    // But not where both Tuesdays are past, or of a material that such a day spoils.
    const now = '2026-11-11T00:00:00Z';
    expect(() => compiled(yardWith(tuesday), { now })).toThrow(/is one batch/);
    const spoils: Change = (yard) => {
      Object.assign(yard.materials[0], { belowMinimum: 'spoils', minimumC: 15 });
    };
    expect(faultOf(tuesday, spoils)).toMatchObject({ code: 'cure.batch' });
  });
});
