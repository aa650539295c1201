import { describe, expect, it } from 'vitest';
import { smallYard } from '../../../testing/small-yard.ts';
import { fabricSchema, materialSchema, type MaterialFigure } from '../../materials.ts';
import type { Step } from '../../procedures.ts';
import type { Yard } from '../../yard.ts';
import { yardFaults } from '../check.ts';

/** Changes to the small yard, and what it is refused for then. */
export type Change = (draft: Yard) => void;
export type Case = readonly [
  name: string,
  change: Change,
  expected: {
    readonly code: string;
    readonly path: string;
    readonly value?: unknown;
    readonly message?: string;
    readonly cure?: string | RegExp;
  },
];

/** A test for each case: it is among the faults, with its code, path and whatever else is expected. */
export function refused(what: string, cases: readonly Case[]): void {
  describe(`a yard is refused for its ${what}`, () => {
    it.each(cases)('%s', (_, change, { cure, ...expected }) => {
      const faults = yardFaults(smallYard(change));
      const found = faults.find(
        ({ path, code }) => path === expected.path && code === expected.code,
      );
      expect(found, JSON.stringify(faults)).toMatchObject(expected);
      if (typeof cure === 'string') expect(found?.cure).toBe(cure);
      else expect(found?.cure).toMatch(cure ?? /./);
    });
  });
}

export const both =
  (...changes: readonly Change[]): Change =>
  (yard) => {
    for (const change of changes) change(yard);
  };

export const part =
  (change: Partial<Yard['boats'][number]['refits'][number]['parts'][number]>): Change =>
  (yard) => {
    Object.assign(yard.boats[0].refits[0].parts[0], change);
  };
export const coatOne =
  (change: Partial<Step>): Change =>
  (yard) => {
    Object.assign(yard.procedures[0].steps[1], change);
  };
export const own = (value: number): MaterialFigure => ({
  value,
  source: 'made up for tests',
  trust: 'sheet',
  spread: null,
});

export const mat: Change = (yard) => {
  yard.fabrics.push(
    fabricSchema.parse({
      id: 'mat',
      name: 'Mat',
      gramsPerM2: 300,
      resinRatio: 2,
      source: 'made up for tests',
    }),
  );
};
export const percent =
  (given: object): Change =>
  (yard) => {
    yard.materials[0] = materialSchema.parse({
      ...yard.materials[0],
      hardener: { kind: 'percent', ...given },
    });
  };
export const coat: Extract<Step['quantity'], { kind: 'coat' }> = {
  kind: 'coat',
  gramsPerM2: null,
  coats: 1,
  wastePercent: 0,
};

export const laminate = (fabric: string): Step['quantity'] => ({
  kind: 'laminate',
  plies: [{ fabric, layers: 2 }],
  wastePercent: 0,
});
