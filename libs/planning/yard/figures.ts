import type { Figure } from '#cure/evidence/evidence.ts';
import { spreadOf } from '#cure/evidence/spread.ts';
import type { Material, MaterialFigure } from './materials.ts';

type Given = (given: MaterialFigure | null) => Figure | null;

const figureOf =
  (of: 'factor' | 'offset', overridden: boolean): Given =>
  (given) =>
    given && {
      value: given.value,
      trust: given.trust,
      source: given.source,
      spread: given.spread ?? spreadOf(given.trust, of),
      overridden,
    };

/** A number of the yard's sheet that has a true zero; `overridden` where it takes the place of a class's. */
export const factorOf = (overridden: boolean): Given => figureOf('factor', overridden);

/** A humidity or margin of the yard's sheet. */
export const offsetOf = (overridden: boolean): Given => figureOf('offset', overridden);

/** A limit of temperature, which a sheet states as it is. */
export const sheetCelsius =
  ({ name }: Material, overridden: boolean) =>
  (value: number | null): Figure | null =>
    value === null
      ? null
      : { value, spread: 0, trust: 'sheet', source: `data sheet of ${name}`, overridden };
