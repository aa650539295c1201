import { describe, expect, it } from 'vitest';

import type { DomainError } from '#kernel/error.ts';
import type { Fabric } from './amounts.ts';
import { amountsOf } from './amounts-of.ts';
import type { Work } from './job.ts';
import { exactly, mixOf } from './testing/mixes.ts';
import { laminateMm } from './thickness.ts';

const sizes = { areaM2: 1, edgeM: 4, jointM: 6 };
const fabric = (gramsPerM2: number, resinRatio: number, name = 'Mat'): Fabric => ({
  id: name.toLowerCase(),
  name,
  gramsPerM2,
  resinRatio,
});

const of = (work: Work, density: number | null = 1.1, gramsPerM2: number | null = null) =>
  amountsOf({
    work,
    sizes,
    material: mixOf({
      mixedDensity: density === null ? null : exactly(density),
      gramsPerM2: gramsPerM2 === null ? null : exactly(gramsPerM2),
    }),
  });

const layer = (cloth: Fabric): number => {
  const { fabrics, mixGrams } = of({
    kind: 'laminate',
    plies: [{ fabric: cloth, layers: 1 }],
    wastePercent: 0,
  });
  return (mixGrams + fabrics[0].grams) / 1000;
};

/** At 30 % of glass by mass: (1 - 0.3) / 0.3. */
const MAT = 7 / 3;

describe('mass of a wetted-out layer, kg/m² with the mix', () => {
  // Calculated: chopped strand mat is wetted out to 30 % of glass, 2.33 to 1.
  it.each([
    [300, 1.0],
    [450, 1.5],
    [600, 2.0],
  ])('mat of %i g/m²: %f', (grams, kilograms) => {
    expect(layer(fabric(grams, MAT))).toBeCloseTo(kilograms, 9);
  });

  it.each([
    [300, 0.7],
    [450, 1.05],
    [600, 1.4],
  ])('of which mix, mat of %i g/m²: %f', (grams, kilograms) => {
    expect(layer(fabric(grams, MAT)) - grams / 1000).toBeCloseTo(kilograms, 9);
  });

  it.each([
    // Woven roving, from memory: 1 to 1 (50 % of glass) to 1.08 to 1 (48 %).
    [600, 0.6, 0.65],
    [800, 0.8, 0.87],
  ])('woven roving of %i g/m² takes %f to %f', (grams, low, high) => {
    expect(layer(fabric(grams, 1)) - grams / 1000).toBeCloseTo(low, 9);
    expect(layer(fabric(grams, 52 / 48)) - grams / 1000).toBeCloseTo(high, 2);
  });
});

describe('laminateMm: t = w / 3.072 (2.56 / g - 1.36), LR and ISO 12215-5, from memory', () => {
  it.each([
    ['mat 450 at 30 %', 450, 0.3, 1.051],
    ['roving 800 at 48 %', 800, 0.48, 1.035],
    ['roving 800 at 50 %', 800, 0.5, 0.979],
  ])('%s', (_, gramsPerM2, share, mm) => {
    expect(laminateMm({ gramsPerM2, resinRatio: (1 - share) / share })).toBeCloseTo(mm, 3);
  });

  it('adds up over the plies', () => {
    const plies = [
      { fabric: fabric(450, MAT), layers: 2 },
      { fabric: fabric(800, 1, 'Roving'), layers: 1 },
    ];
    const { filmMm } = of({ kind: 'laminate', plies, wastePercent: 0 });
    expect(filmMm).toBeCloseTo(2 * 1.0508 + 0.979, 3);
  });
});

describe('coverage', () => {
  it.each([
    // The Gougeon Brothers on Boat Construction, ch. 7 p. 54 (read): m²/kg.
    ['first coat of epoxy', 141, 7.1],
    ['later coat of epoxy', 122, 8.2],
  ])('%s: %i g/m² is %f m²/kg', (_, gramsPerM2, m2PerKg) => {
    const { mixGrams } = of({ kind: 'coat', gramsPerM2, coats: 1, wastePercent: 0 });
    expect(1000 / mixGrams).toBeCloseTo(m2PerKg, 1);
  });

  it('glue line: 370 g/m² is 2.7 m²/kg (the same book)', () => {
    // 4 m of edge, 250 mm wide: 1 m².
    const work = { kind: 'glue-line', widthMm: 250, gramsPerM2: 370, wastePercent: 0 } as const;
    expect(1000 / of(work).mixGrams).toBeCloseTo(2.7, 1);
  });

  it.each([
    // Rayplex, laminating resin (read): square feet to the US gallon; the ratios, waste and all,
    // calculated from them at 1.10 kg/l. Ounces to the square yard, or of mat to the square foot.
    ['cloth of 9 oz', 9 * 33.906, 3.7, 40],
    ['mat of 3/4 oz', 0.75 * 305.15, 3.9, 50],
    ['mat of 1 1/2 oz', 1.5 * 305.15, 3.3, 30],
    ['roving of 24 oz', 24 * 33.906, 1.6, 35],
  ])('%s: %f g/m² at %f to 1 is a gallon to %i ft²', (_, gramsPerM2, ratio, feet) => {
    const plies = [{ fabric: fabric(gramsPerM2, ratio), layers: 1 }];
    const { mixGrams } = of({ kind: 'laminate', plies, wastePercent: 0 });
    const gallon = 3.7854 * 1100;
    expect(Math.abs(gallon / mixGrams / 0.0929 / feet - 1)).toBeLessThan(0.03);
  });

  it('filler: a litre covers 1/mm m², not what one sheet prints', () => {
    // AwlFair LW at 6 mm a coat prints ".63 m²/L, 6.8 ft²/gal" (read): a slip of units.
    const { mixGrams } = of({ kind: 'fill', mm: 6, wastePercent: 0 }, 1);
    const m2PerLitre = 1000 / mixGrams;
    expect(m2PerLitre).toBeCloseTo(0.167, 3);
    expect(m2PerLitre).not.toBeCloseTo(0.63, 1);
    // 6.8 ft² to the US gallon is right: 0.632 m² to 3.785 l.
    expect(m2PerLitre).toBeCloseTo((6.8 * 0.0929) / 3.785, 3);
  });

  it('gel coat: half a millimetre is 550 to 600 g/m² (calculated)', () => {
    expect(of({ kind: 'fill', mm: 0.5, wastePercent: 0 }, 1.1).mixGrams).toBeCloseTo(550, 9);
    expect(of({ kind: 'fill', mm: 0.5, wastePercent: 0 }, 1.2).mixGrams).toBeCloseTo(600, 9);
  });
});

describe('amountsOf', () => {
  it('of a laminate, with the arithmetic in words', () => {
    const found = amountsOf({
      work: {
        kind: 'laminate',
        plies: [
          { fabric: fabric(300, MAT), layers: 2 },
          { fabric: fabric(600, 1, 'Roving'), layers: 1 },
        ],
        wastePercent: 10,
      },
      sizes: { ...sizes, areaM2: 1.5 },
      material: mixOf(),
    });
    expect(found.fabrics).toEqual([
      { id: 'mat', name: 'Mat', squareMetres: 3, grams: 900 },
      { id: 'roving', name: 'Roving', squareMetres: 1.5, grams: 900 },
    ]);
    expect(found.mixGrams).toBeCloseTo((900 * MAT + 900) * 1.1, 6);
    expect(found.steps).toEqual([
      'Mat: 1.5 m² × 2 layers = 3 m², × 300 g/m² = 900 g',
      'mix for it: 900 g × 2.33 = 2100 g',
      'Roving: 1.5 m² × 1 layer = 1.5 m², × 600 g/m² = 900 g',
      'mix for it: 900 g × 1 = 900 g',
      '10 % more for waste: 3300 g',
    ]);
  });

  it('of tabbing: strips along the joints, one fabric in one row', () => {
    const tape = fabric(600, 1, 'Biaxial');
    const { fabrics, mixGrams, filmMm } = of({
      kind: 'tabbing',
      plies: [100, 150].map((widthMm) => ({ fabric: tape, widthMm })),
      wastePercent: 0,
    });
    // 6 m × (0.1 + 0.15) m = 1.5 m²
    expect(fabrics).toEqual([{ id: 'biaxial', name: 'Biaxial', squareMetres: 1.5, grams: 900 }]);
    // Both strips lie on each other over the joint.
    expect(filmMm).toBeCloseTo(2 * laminateMm(tape), 9);
    expect(mixGrams).toBeCloseTo(900, 9);
  });

  it('of a coat: the material’s own coverage, coats, and how thick it stands', () => {
    const two = of({ kind: 'coat', gramsPerM2: null, coats: 2, wastePercent: 0 }, 1.1, 110);
    expect(two.mixGrams).toBeCloseTo(220, 9);
    expect(two.filmMm).toBeCloseTo(0.2, 9);
    expect(
      of({ kind: 'coat', gramsPerM2: 110, coats: 1, wastePercent: 0 }, null).filmMm,
    ).toBeNull();
  });

  it('of a fillet: the corner less the quarter circle, on both sides', () => {
    // r = 20 mm: 400 mm² × 0.2146 = 85.84 mm²; 6 m × 2 sides: 1030.1 cm³ at 1.1 g/cm³.
    const { mixGrams, steps, filmMm } = of({
      kind: 'fillet',
      radiusMm: 20,
      sides: 2,
      wastePercent: 0,
    });
    // From the corner to the centre 20 √2, less the radius.
    expect(filmMm).toBeCloseTo(8.284, 3);
    expect(mixGrams).toBeCloseTo(85.84 * 12 * 1.1, 0);
    expect(steps[0]).toContain('= 85.8 mm²');
    // The area under a quarter circle by summing 1000 strips.
    const strips = Array.from({ length: 1000 }, (_, k) => (k + 0.5) / 50);
    const corner = strips.reduce((sum, x) => sum + (20 - Math.sqrt(400 - (20 - x) ** 2)) / 50, 0);
    expect(mixGrams / 12 / 1.1).toBeCloseTo(corner, 1);
  });
});

describe('amountsOf refuses', () => {
  const code = (job: () => unknown): string => {
    try {
      job();
    } catch (error) {
      return `${(error as DomainError).code}: ${(error as DomainError).message}`;
    }
    return 'nothing';
  };
  const coat: Work = { kind: 'coat', gramsPerM2: 100, coats: 1, wastePercent: 0 };
  const fillet: Work = { kind: 'fillet', radiusMm: 10, sides: 1, wastePercent: 0 };
  const on =
    (work: Work, areaM2: number, jointM = 0) =>
    () =>
      amountsOf({ work, sizes: { areaM2, edgeM: 0, jointM }, material: mixOf() });

  it('no area, no joints, less than nothing', () => {
    expect(code(on(coat, 0))).toBe(
      'input.field: the area of the part is 0 m²: nothing can be mixed',
    );
    expect(code(on(coat, -2))).toContain('is -2 m²');
    expect(code(on(coat, NaN))).toContain('input.field');
    expect(code(on(fillet, 1))).toContain('the length of the joints is 0 m');
    expect(code(on({ ...fillet, radiusMm: -1 }, 1, 1))).toContain('the radius is -1 mm');
    expect(code(on({ ...coat, wastePercent: -5 }, 1))).toContain('no share of waste');
    expect(code(on({ kind: 'laminate', plies: [], wastePercent: 0 }, 1))).toContain('no ply');
  });

  it('what the sheet does not say, naming the line', () => {
    expect(code(() => of({ kind: 'fill', mm: 2, wastePercent: 0 }, null))).toBe(
      'cure.missing: Resin has no density of the mix',
    );
    expect(code(() => of({ kind: 'coat', gramsPerM2: null, coats: 1, wastePercent: 0 }))).toBe(
      'cure.missing: Resin has no coverage',
    );
  });
});
