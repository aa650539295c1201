import { DomainError } from '#kernel/error.ts';
import type { Amounts, Fabric, FabricAmount } from './amounts.ts';
import type { BatchJob, Sizes, Work } from './job.ts';
import { laminateMm } from './thickness.ts';
import { round, shown } from './words.ts';

type Of<K extends Work['kind']> = Extract<Work, { kind: K }>;

/** Before waste. */
interface Net {
  readonly fabrics: readonly FabricAmount[];
  readonly grams: number;
  readonly filmMm: number | null;
  readonly steps: readonly string[];
}

function checked(what: string, value: number, unit: string): number {
  if (value > 0 && Number.isFinite(value)) return value;
  throw new DomainError(
    'input.field',
    `${what} is ${String(value)} ${unit}: nothing can be mixed`,
    {
      cure: `Give ${what} in ${unit}, more than 0.`,
    },
  );
}

const area = ({ areaM2 }: Sizes): number => checked('the area of the part', areaM2, 'm²');
const edge = ({ edgeM }: Sizes): number => checked('the length of the edges', edgeM, 'm');
const joint = ({ jointM }: Sizes): number => checked('the length of the joints', jointM, 'm');

function densityOf({ name, mixedDensity }: BatchJob['material']): number {
  if (mixedDensity !== null) return checked(`the density of ${name}`, mixedDensity.value, 'kg/l');
  throw new DomainError('cure.missing', `${name} has no density of the mix`, {
    cure: 'Enter the density of resin and hardener mixed, kg/l, from its data sheet.',
  });
}

function perM2(own: number | null, { name, gramsPerM2 }: BatchJob['material']): number {
  const value = own ?? gramsPerM2?.value;
  if (value !== undefined) return checked(`the coverage of ${name}`, value, 'g/m²');
  throw new DomainError('cure.missing', `${name} has no coverage`, {
    cure: 'Enter the grams per square metre and coat from its data sheet, or give them in the step.',
  });
}

/** Two plies of one fabric are one row. */
function merged(rows: readonly FabricAmount[]): FabricAmount[] {
  const byId = new Map<string, FabricAmount>();
  for (const row of rows) {
    const known = byId.get(row.id);
    const squareMetres = (known?.squareMetres ?? 0) + row.squareMetres;
    byId.set(row.id, { ...row, squareMetres, grams: (known?.grams ?? 0) + row.grams });
  }
  return [...byId.values()];
}

function wetOut(
  plies: readonly {
    readonly fabric: Fabric;
    readonly squareMetres: number;
    readonly words: string;
  }[],
): Omit<Net, 'filmMm'> {
  if (plies.length === 0) throw new DomainError('input.field', 'there is no ply of fabric');
  let grams = 0;
  const steps: string[] = [];
  const rows = plies.map(({ fabric, squareMetres, words }): FabricAmount => {
    const weight =
      squareMetres * checked(`the weight of ${fabric.name}`, fabric.gramsPerM2, 'g/m²');
    const mix = weight * checked(`the resin ratio of ${fabric.name}`, fabric.resinRatio, 'to 1');
    grams += mix;
    steps.push(
      `${fabric.name}: ${words} = ${shown(squareMetres, 2)} m², × ${shown(fabric.gramsPerM2)} g/m² = ${shown(weight)} g`,
      `mix for it: ${shown(weight)} g × ${shown(fabric.resinRatio, 2)} = ${shown(mix)} g`,
    );
    return { id: fabric.id, name: fabric.name, squareMetres, grams: weight };
  });
  return { fabrics: merged(rows), grams, steps };
}

function laminate({ plies }: Of<'laminate'>, sizes: Sizes): Net {
  const m2 = area(sizes);
  const wet = wetOut(
    plies.map(({ fabric, layers }) => ({
      fabric,
      squareMetres: m2 * checked(`the layers of ${fabric.name}`, layers, 'layers'),
      words: `${shown(m2, 2)} m² × ${shown(layers)} ${layers === 1 ? 'layer' : 'layers'}`,
    })),
  );
  const mm = plies.reduce((sum, { fabric, layers }) => sum + layers * laminateMm(fabric), 0);
  return { ...wet, filmMm: mm };
}

function tabbing({ plies }: Of<'tabbing'>, sizes: Sizes): Net {
  const m = joint(sizes);
  const wet = wetOut(
    plies.map(({ fabric, widthMm }) => ({
      fabric,
      squareMetres: (m * checked(`the width of ${fabric.name}`, widthMm, 'mm')) / 1000,
      words: `${shown(m, 2)} m × ${shown(widthMm)} mm`,
    })),
  );
  // All strips lie on each other over the joint, whatever their widths.
  return { ...wet, filmMm: plies.reduce((sum, { fabric }) => sum + laminateMm(fabric), 0) };
}

function spread(
  what: string,
  m2: number,
  grams: number,
  coats: number,
  material: BatchJob['material'],
): Net {
  const density = material.mixedDensity?.value;
  const times = coats === 1 ? '' : ` × ${shown(coats)} coats`;
  const total = m2 * grams * coats;
  return {
    fabrics: [],
    grams: total,
    filmMm: density === undefined ? null : (grams * coats) / density / 1000,
    steps: [`${what} × ${shown(grams)} g/m²${times} = ${shown(total)} g`],
  };
}

function coat(work: Of<'coat'>, { sizes, material }: BatchJob): Net {
  const m2 = area(sizes);
  const grams = perM2(work.gramsPerM2, material);
  return spread(
    `${shown(m2, 2)} m²`,
    m2,
    grams,
    checked('the coats', work.coats, 'coats'),
    material,
  );
}

function glueLine(work: Of<'glue-line'>, { sizes, material }: BatchJob): Net {
  const m = edge(sizes);
  const width = checked('the width of the glue line', work.widthMm, 'mm');
  const m2 = (m * width) / 1000;
  const what = `${shown(m, 2)} m × ${shown(width)} mm = ${shown(m2, 3)} m²,`;
  return spread(what, m2, perM2(work.gramsPerM2, material), 1, material);
}

function fill({ mm }: Of<'fill'>, { sizes, material }: BatchJob): Net {
  const m2 = area(sizes);
  const litres = m2 * checked('the thickness', mm, 'mm');
  const density = densityOf(material);
  const grams = litres * density * 1000;
  return {
    fabrics: [],
    grams,
    filmMm: mm,
    steps: [
      `${shown(m2, 2)} m² × ${shown(mm, 1)} mm = ${shown(litres, 2)} l, × ${shown(density, 2)} kg/l = ${shown(grams)} g`,
    ],
  };
}

/** Between a right angle and the quarter circle that touches both its sides: r² (1 - π/4). */
const HOLLOW = 1 - Math.PI / 4;

function fillet({ radiusMm, sides }: Of<'fillet'>, { sizes, material }: BatchJob): Net {
  const m = joint(sizes) * checked('the sides', sides, 'sides');
  const r = checked('the radius', radiusMm, 'mm');
  const section = r * r * HOLLOW;
  const density = densityOf(material);
  // A metre of one square millimetre is a cubic centimetre.
  const grams = section * m * density;
  return {
    fabrics: [],
    grams,
    // From the corner to the hollow, on its diagonal.
    filmMm: r * (Math.SQRT2 - 1),
    steps: [
      `section: ${shown(r, 1)} mm × ${shown(r, 1)} mm × (1 - π/4) = ${shown(section, 1)} mm²`,
      `${shown(m, 2)} m × ${shown(section, 1)} mm² = ${shown(section * m, 1)} cm³, × ${shown(density, 2)} kg/l = ${shown(grams)} g`,
    ],
  };
}

function netOf(job: BatchJob): Net {
  const { work, sizes } = job;
  switch (work.kind) {
    case 'laminate':
      return laminate(work, sizes);
    case 'tabbing':
      return tabbing(work, sizes);
    case 'coat':
      return coat(work, job);
    case 'fill':
      return fill(work, job);
    case 'fillet':
      return fillet(work, job);
    case 'glue-line':
      return glueLine(work, job);
  }
}

/**
 * What a piece of work needs, with the arithmetic in words. Throws `input.field` where a size
 * it depends on is zero, negative or no number, and `cure.missing` where the material's density
 * or coverage is not known.
 */
export function amountsOf(job: BatchJob): Amounts {
  const { wastePercent } = job.work;
  if (!(wastePercent >= 0 && wastePercent <= 100)) {
    throw new DomainError('input.field', `${String(wastePercent)} % is no share of waste`, {
      cure: 'Give 0 to 100 percent.',
    });
  }
  const { fabrics, grams, filmMm, steps } = netOf(job);
  const mixGrams = grams * (1 + wastePercent / 100);
  const waste =
    wastePercent === 0 ? [] : [`${shown(wastePercent, 1)} % more for waste: ${shown(mixGrams)} g`];
  return {
    fabrics: fabrics.map((row) => ({ ...row, squareMetres: round(row.squareMetres, 3) })),
    mixGrams,
    filmMm,
    steps: [...steps, ...waste],
  };
}
