/**
 * Builder-minutes of what a rework adds, at the nominal rate. No measured productivity of boat
 * repair was found in print: common practice, no source.
 */
const minutes = (fixed: number, perM2: number, m2: number): number =>
  Math.max(1, Math.ceil(fixed + perM2 * m2 - 1e-6));

/** Grinding out glass or glue; scarfing its edge is 16 min a metre more. */
export const grindMinutes = (m2: number, scarfM: number): number =>
  minutes(25 + 16 * scarfM, 80, m2);
/** Sanding off coats and filler. */
export const sandOffMinutes = (m2: number): number => minutes(25, 45, m2);
/** Keying a hard surface. */
export const keyMinutes = (m2: number): number => minutes(25, 32, m2);
/** Vacuum and solvent. */
export const wipeMinutes = (m2: number): number => minutes(10, 4, m2);
/** Taking off what has not set, and what it leaves. */
export const scrapeMinutes = (m2: number): number => minutes(20, 40, m2);
/** Tape that has set into a film: cut along it, and the edge dressed, by the metre. */
export const cutTapeMinutes = (edgeM: number): number => minutes(10, 6, edgeM);
