import { CATALOGUE_VERSION } from '#cure/catalogue/classes.ts';
import type { Evidence, Figure } from '#cure/evidence/evidence.ts';
import {
  MILESTONES,
  type ConversionLaw,
  type CureLaw,
  type CureMaterial,
  type CureRow,
  type Milestone,
  type MissingLine,
} from '#cure/material/material.ts';

/** Which numbers of a material a sheet has. */
export const SHEET_FIELDS = [
  'minimumC',
  'maximumC',
  'warnBelowC',
  'maximumHumidity',
  'minimumDewMarginC',
  'preheatHours',
  'holdHours',
  'hardener.usual',
  'hardener.effect',
  'hardener.per100',
  'referenceGrams',
  'referenceMm',
  'massPower',
  'thicknessPower',
  'resinDensity',
  'hardenerDensity',
  'mixedDensity',
  'gramsPerM2',
  'shelfLifeDays',
] as const;

type SheetField = (typeof SHEET_FIELDS)[number];

/** One number of a material's sheet. */
export interface SheetLine extends Figure {
  /** Of the material, as the yard file has it. */
  readonly field: SheetField;
  readonly line: string;
  readonly unit: string;
  /** Whether the spread is a factor of at least 1, or plus or minus so many of the unit. */
  readonly spreadIs: 'factor' | 'offset';
}

/** The times of one milestone. */
export interface SheetLaw extends Evidence {
  readonly milestone: Milestone;
  readonly kind: CureLaw['kind'];
  /** Of a table all of it, of a fallback the one that is known; none of a rate model. */
  readonly rows: readonly CureRow[];
  readonly kjPerMol: number | null;
  readonly per10C: number | null;
  readonly conversion: Pick<ConversionLaw, 'k1' | 'k2' | 'm' | 'n' | 'initial' | 'reached'> | null;
  readonly spread: number;
  /** From what the yard observed; on all times. */
  readonly factor: number;
  readonly overridden: boolean;
  readonly touchTest: (Evidence & { readonly words: string }) | null;
}

/** What is reckoned with for a material: its class with the yard's own sheet laid over it. */
export interface MaterialSheet {
  readonly catalogue: string;
  readonly material: CureMaterial;
  readonly laws: readonly SheetLaw[];
  readonly lines: readonly SheetLine[];
  /** Lines of the data sheet that the yard has to enter before anything is reckoned with them. */
  readonly missing: readonly MissingLine[];
}

export const materialSheet = (material: CureMaterial): MaterialSheet => ({
  catalogue: CATALOGUE_VERSION,
  material,
  laws: lawsOf(material),
  lines: linesOf(material),
  missing: material.missing,
});

function lawsOf({ milestones, touchTests }: CureMaterial): SheetLaw[] {
  return MILESTONES.flatMap((milestone): SheetLaw[] => {
    const law = milestones[milestone];
    if (law === undefined) return [];
    const { kind, trust, source, spread, factor, overridden } = law;
    const test = touchTests.find((one) => one.milestone === milestone);
    return [
      {
        milestone,
        kind,
        rows: rowsOf(law),
        kjPerMol: law.kind === 'activation' ? law.kjPerMol : null,
        per10C: law.kind === 'doubling' ? law.per10C : null,
        conversion: law.kind === 'conversion' ? modelOf(law) : null,
        trust,
        source,
        spread,
        factor,
        overridden,
        touchTest:
          test === undefined ? null : { words: test.words, trust: test.trust, source: test.source },
      },
    ];
  });
}

function rowsOf(law: CureLaw): readonly CureRow[] {
  if (law.kind === 'conversion') return [];
  return law.kind === 'table' ? law.rows : [law.at];
}

const modelOf = ({ k1, k2, m, n, initial, reached }: ConversionLaw): SheetLaw['conversion'] => ({
  k1,
  k2,
  m,
  n,
  initial,
  reached,
});

function linesOf(material: CureMaterial): SheetLine[] {
  const { limits, mass, hardener } = material;
  const lines: SheetLine[] = [];
  const add = (
    field: SheetField,
    spreadIs: SheetLine['spreadIs'],
    unit: string,
    line: string,
    of: Figure | null,
  ) => {
    if (of !== null) lines.push({ field, line, unit, spreadIs, ...of });
  };
  add('minimumC', 'offset', '°C', 'minimum temperature', limits.minimumC);
  add('maximumC', 'offset', '°C', 'maximum temperature', limits.maximumC);
  add('warnBelowC', 'offset', '°C', 'warned of below', limits.warnBelowC);
  add('maximumHumidity', 'offset', '%', 'relative humidity at most', limits.maximumHumidity);
  add(
    'minimumDewMarginC',
    'offset',
    'degrees',
    'surface above the dew point',
    limits.minimumDewMarginC,
  );
  add('preheatHours', 'factor', 'h', 'heat before the work', limits.preheatHours);
  add('holdHours', 'factor', 'h', 'heat after the work', limits.holdHours);
  if (hardener?.kind === 'percent') {
    add('hardener.usual', 'factor', '% by mass', 'hardener, usual', hardener.usual);
    add('hardener.effect', 'factor', 'power', 'hardener, effect on the times', hardener.effect);
  }
  if (hardener?.kind === 'ratio')
    add('hardener.per100', 'factor', 'g to 100 g', 'hardener', hardener.per100);
  add('referenceGrams', 'factor', 'g', 'pot life holds for', mass.referenceGrams);
  add('referenceMm', 'factor', 'mm', 'pot life holds for, standing', mass.referenceMm);
  add('massPower', 'factor', 'power', 'mass on pot life', mass.massPower);
  add('thicknessPower', 'factor', 'power', 'thickness on pot life', mass.thicknessPower);
  add('resinDensity', 'factor', 'kg/l', 'density of the resin', material.resinDensity);
  add('hardenerDensity', 'factor', 'kg/l', 'density of the hardener', material.hardenerDensity);
  add('mixedDensity', 'factor', 'kg/l', 'density of the mix', material.mixedDensity);
  add('gramsPerM2', 'factor', 'g/m²', 'coverage of a coat', material.gramsPerM2);
  add('shelfLifeDays', 'factor', 'days', 'shelf life', material.shelfLifeDays);
  return lines;
}
