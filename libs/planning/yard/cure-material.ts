import type { Calibration } from '#cure/calibration/observed.ts';
import { missingOf, single } from '#cure/catalogue/build.ts';
import { classOf } from '#cure/catalogue/classes.ts';
import { MASS } from '#cure/catalogue/conditions.ts';
import { EPOXY_TESTS, POLYESTER_TESTS } from '#cure/catalogue/touch-tests.ts';
import type { Figure } from '#cure/evidence/evidence.ts';
import { lawSpread } from '#cure/material/law.ts';
import type { CureLaw, CureMaterial, Limits } from '#cure/material/material.ts';
import { DomainError } from '#kernel/error.ts';
import { factorOf, offsetOf, sheetCelsius } from './figures.ts';
import { hardenerOf } from './hardener.ts';
import type { Material, MaterialCureTable } from './materials.ts';

/**
 * Whether nothing may be made of a line of one temperature: published charts of gel coats change
 * far more over ten degrees than any fallback says, and no less is known of the yard's.
 */
export function isTooShort(material: Material, line: MaterialCureTable): boolean {
  const use = material.use ?? classOf(material.classId ?? '')?.use;
  const gelCoat = material.resinSystem !== 'epoxy' && (use === 'gel-coat' || use === 'finish');
  return gelCoat && line.conversion === null && line.rows.length === 1;
}

/** How steep a time is with temperature where the sheet gives but one: hardness more than all else. */
const energyOf = ({ resinSystem }: Material, { milestone }: MaterialCureTable) => {
  if (milestone === 'sandable' || milestone === 'cured') return 'hardness';
  return resinSystem === 'epoxy' ? 'epoxy' : 'polyester';
};

/** A line of the yard's sheet; of one temperature only, followed to others by a fallback that says so. */
function lawOf(material: Material, line: MaterialCureTable, overridden: boolean): CureLaw {
  const { milestone, rows, conversion, source, trust } = line;
  const given = (spread: number): Pick<CureLaw, 'factor' | 'overridden' | 'spread'> => ({
    factor: 1,
    overridden,
    spread: line.spread ?? spread,
  });
  if (conversion !== null)
    return {
      kind: 'conversion',
      ...conversion,
      trust,
      source,
      ...given(lawSpread('conversion', trust, milestone)),
    };
  if (rows.length !== 1)
    return { kind: 'table', rows, trust, source, ...given(lawSpread('table', trust, milestone)) };
  const [{ celsius, minutes }] = rows;
  const law = single(line, celsius, [minutes, minutes], energyOf(material, line));
  return { ...law, ...given(law.spread) };
}

/** The class's laws with the yard's lines in their places and its own factors on them. Of two lines for one milestone the first counts. */
function lawsOf(
  material: Material,
  base: CureMaterial | undefined,
  calibrations: readonly Calibration[],
): CureMaterial['milestones'] {
  const laws: Partial<Record<MaterialCureTable['milestone'], CureLaw>> = {};
  for (const line of material.milestones.filter((one) => !isTooShort(material, one)))
    laws[line.milestone] ??= lawOf(material, line, base !== undefined);
  const all = { ...base?.milestones, ...laws };
  for (const { milestone, factor, spread } of calibrations) {
    const law = all[milestone];
    if (law !== undefined) all[milestone] = { ...law, factor, spread };
  }
  return all;
}

/** Without a class a sheet that asks for nothing of the kind asks for nothing; its temperatures it has to give. */
function limitsOf(material: Material, base: CureMaterial | undefined): Limits {
  const celsius = sheetCelsius(material, base !== undefined);
  const minimumC = celsius(material.minimumC) ?? base?.limits.minimumC;
  const maximumC = celsius(material.maximumC) ?? base?.limits.maximumC;
  const belowMinimum = material.belowMinimum ?? base?.limits.belowMinimum;
  if (minimumC === undefined || maximumC === undefined || belowMinimum === undefined) {
    throw new DomainError(
      'cure.missing',
      `${material.name} has no class, and its sheet no limits of temperature`,
      { cure: 'Enter the lowest and the highest application temperature, and what happens below.' },
    );
  }
  const factor = factorOf(base !== undefined);
  const offset = offsetOf(base !== undefined);
  return {
    minimumC,
    belowMinimum,
    maximumC,
    warnBelowC: celsius(material.warnBelowC) ?? warningOf(base, minimumC, maximumC),
    maximumHumidity: offset(material.maximumHumidity) ?? base?.limits.maximumHumidity ?? null,
    minimumDewMarginC: offset(material.minimumDewMarginC) ?? base?.limits.minimumDewMarginC ?? null,
    dampAir: material.dampAir ?? base?.limits.dampAir ?? 'refuse',
    preheatHours: factor(material.preheatHours) ?? base?.limits.preheatHours ?? null,
    holdHours: factor(material.holdHours) ?? base?.limits.holdHours ?? null,
  };
}

/** The class's warning, where it still lies between the limits that the yard has put in the place of the class's. */
function warningOf(
  base: CureMaterial | undefined,
  minimum: Figure,
  maximum: Figure,
): Figure | null {
  const warning = base?.limits.warnBelowC ?? null;
  const inside =
    warning !== null && warning.value >= minimum.value && warning.value <= maximum.value;
  return inside ? warning : null;
}

/**
 * The effective sheet of a yard's material: its class of the catalogue, with what the yard gives
 * in the place of the class's, and its own factors from what was observed. Every number of the
 * yard has the trust and source it was given with. Throws `yard.reference` for a class that the
 * catalogue lacks, and `cure.missing` where neither class nor yard gives limits of temperature
 * or a range for the hardener (`check/materials.ts` names each before).
 */
export function cureMaterial(
  material: Material,
  calibrations: readonly Calibration[] = [],
): CureMaterial {
  const { id, name, classId, resinSystem } = material;
  const base = classId === null ? undefined : classOf(classId);
  if (classId !== null && base === undefined)
    throw new DomainError('yard.reference', `${name}: the catalogue has no class "${classId}"`);
  const own = factorOf(base !== undefined);
  const milestones = lawsOf(material, base, calibrations);
  const waxed = material.waxed ?? base?.waxed ?? false;
  const inhibited = resinSystem !== 'epoxy' && !waxed;
  return {
    id,
    name,
    classId,
    base: resinSystem,
    use: material.use ?? base?.use ?? 'laminating',
    surface: material.surface ?? base?.surface ?? (inhibited ? 'inhibited' : 'sealed'),
    waxed,
    blushes: material.blushes ?? base?.blushes ?? resinSystem === 'epoxy',
    milestones,
    missing: (base?.missing ?? missingOf({})).filter(
      ({ milestone }) => milestones[milestone] === undefined,
    ),
    limits: limitsOf(material, base),
    hardener: hardenerOf(material, base?.hardener ?? null),
    mass: {
      referenceGrams:
        own(material.referenceGrams) ?? base?.mass.referenceGrams ?? MASS.referenceGrams,
      referenceMm: own(material.referenceMm) ?? base?.mass.referenceMm ?? MASS.referenceMm,
      massPower: own(material.massPower) ?? base?.mass.massPower ?? MASS.massPower,
      thicknessPower:
        own(material.thicknessPower) ?? base?.mass.thicknessPower ?? MASS.thicknessPower,
    },
    resinDensity: own(material.resinDensity) ?? base?.resinDensity ?? null,
    hardenerDensity: own(material.hardenerDensity) ?? base?.hardenerDensity ?? null,
    mixedDensity: own(material.mixedDensity) ?? base?.mixedDensity ?? null,
    gramsPerM2: own(material.gramsPerM2) ?? base?.gramsPerM2 ?? null,
    shelfLifeDays: own(material.shelfLifeDays) ?? base?.shelfLifeDays ?? null,
    touchTests: base?.touchTests ?? (resinSystem === 'epoxy' ? EPOXY_TESTS : POLYESTER_TESTS),
  };
}
