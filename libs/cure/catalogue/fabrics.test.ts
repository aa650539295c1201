import { describe, expect, it } from 'vitest';

import { FABRICS } from './fabrics.ts';

describe('fabrics', () => {
  it('has chopped strand mat in a binder that only styrene dissolves, and nothing else so', () => {
    // Suppliers' pages (read): such mat is not for epoxy; woven and stitched fabrics have none.
    const soluble = FABRICS.filter(({ binder }) => binder === 'styrene-soluble');
    expect(soluble.map(({ id }) => id)).toEqual(['csm-300', 'csm-450', 'csm-600']);
  });

  it('has its ratio inside what was published, and the range where that disagrees (X4)', () => {
    for (const { id, resinRatio, published, source } of FABRICS) {
      expect(resinRatio, id).toBeGreaterThanOrEqual(published[0]);
      expect(resinRatio, id).toBeLessThanOrEqual(published[1]);
      expect(source.length).toBeGreaterThan(10);
    }
    expect(new Set(FABRICS.map(({ id }) => id)).size).toBe(FABRICS.length);
    // TotalBoat 2 and Neo 2.5 for mat; TotalBoat 3 and a reader's 1.5 for biaxial with mat.
    const range = (id: string): unknown => FABRICS.find((fabric) => fabric.id === id)?.published;
    expect([range('csm-450'), range('biax-mat-850')]).toEqual([
      [2, 2.5],
      [1.5, 3],
    ]);
  });

  it.each([
    // Resin per layer, kg/m², calculated from 30 % glass and from 1 to 1.08.
    ['csm-300', 0.7, 0.7],
    ['csm-450', 1.05, 1.05],
    ['csm-600', 1.4, 1.4],
    ['wr-600', 0.6, 0.65],
    ['wr-800', 0.8, 0.87],
  ])('%s takes %f to %f kg/m²', (id, low, high) => {
    const fabric = FABRICS.find((one) => one.id === id);
    if (fabric === undefined) throw new Error(id);
    const kilograms = (fabric.gramsPerM2 * fabric.resinRatio) / 1000;
    expect(kilograms).toBeGreaterThanOrEqual(low - 0.005);
    expect(kilograms).toBeLessThanOrEqual(high + 0.005);
  });
});
