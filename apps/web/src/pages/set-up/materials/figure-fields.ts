import type { Schema } from '../../../api/client.ts';
import type { Material } from './material-collection.ts';

/** Fields that are a number with its evidence. */
const figures = [
  'maximumHumidity',
  'minimumDewMarginC',
  'preheatHours',
  'holdHours',
  'referenceGrams',
  'referenceMm',
  'massPower',
  'thicknessPower',
  'resinDensity',
  'hardenerDensity',
  'mixedDensity',
  'gramsPerM2',
  'shelfLifeDays',
] as const satisfies readonly (keyof Material)[];

/** Fields that are a temperature and no more. */
const limits = [
  'minimumC',
  'maximumC',
  'warnBelowC',
] as const satisfies readonly (keyof Material)[];

export type FigureField = (typeof figures)[number];
export type LimitField = (typeof limits)[number];
export type Field = FigureField | LimitField;

/** All numbers of a sheet but for times and hardener, in the order in which sheets are read. */
export const fields: readonly Field[] = [...limits, ...figures];

export const isLimit = (field: Field): field is LimitField =>
  limits.some((limit) => limit === field);

/** Plus or minus so much, and not a factor. */
export const isOffset = (field: Field): boolean =>
  isLimit(field) || field === 'maximumHumidity' || field === 'minimumDewMarginC';

/** How many degrees, where it is that. */
export const isDegrees = (field: Field): boolean => field === 'minimumDewMarginC';

export function patchOf(
  field: Field,
  value: Schema<'SheetFigure'> | number | null,
): Schema<'MaterialPatch'> {
  return { [field]: value };
}
