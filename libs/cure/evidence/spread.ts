import type { Trust } from './evidence.ts';

/**
 * What is taken for the spread of a number whose source gives none, by how far it can be
 * trusted: `factor` of quantities with a true zero, `offset` of temperatures and humidities
 * (degrees and points). Common practice, no source.
 */
const SPREADS: Readonly<Record<Trust, { readonly factor: number; readonly offset: number }>> = {
  read: { factor: 1.15, offset: 1 },
  code: { factor: 1.05, offset: 0.5 },
  calculated: { factor: 1.15, offset: 1 },
  memory: { factor: 1.4, offset: 2 },
  practice: { factor: 1.5, offset: 2 },
  sheet: { factor: 1.1, offset: 0 },
  measured: { factor: 1.05, offset: 0.5 },
};

export const spreadOf = (trust: Trust, of: 'factor' | 'offset'): number => SPREADS[trust][of];
