/**
 * Money in the engine is in sixtieths of a cent: an hourly cost in whole cents is then a whole
 * number for each minute.
 */
export const PER_CENT = 60;

/** Sixtieths of a cent to whole cents, to the nearest. */
export const inCents = (units: number): number => Math.round(units / PER_CENT);
