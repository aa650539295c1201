import type { Evidence, Figure, Trust } from '../evidence/evidence.ts';
import { figure, level } from '../evidence/figure.ts';
import {
  MILESTONES,
  type ActivationLaw,
  type CureLaw,
  type CureMaterial,
  type Milestone,
  type MissingLine,
} from '../material/material.ts';
import { lawSpread } from '../material/law.ts';
import { SOURCES } from './sources.ts';

/** A published range as one figure: its ends are value / spread and value * spread. */
export const range = (low: number, high: number, trust: Trust, source: string): Figure =>
  figure(Math.sqrt(low * high), trust, source, Math.sqrt(high / low));

/** A limit that a rule or sheet lays down is what it says, so it has no spread. */
export const limit = (value: number, trust: Trust, source: string): Figure =>
  level(value, trust, source, 0);

/** As `limit`, of hours. */
export const hours = (value: number, source: string): Figure => figure(value, 'read', source, 1);

interface Published extends Evidence {
  readonly milestone: Milestone;
}

/** One table; `spread` at least what its kind and milestone call for, unless it is a rule's limit. */
export function tabled(
  of: Published,
  rows: readonly (readonly [celsius: number, minutes: number])[],
  spread = 1,
): CureLaw {
  return {
    kind: 'table',
    rows: rows.map(([celsius, minutes]) => ({ celsius, minutes })),
    trust: of.trust,
    source: of.source,
    spread: Math.max(spread, lawSpread('table', of.trust, of.milestone)),
    factor: 1,
    overridden: false,
  };
}

/**
 * A time limit that a rule lays down in days whatever the temperature: kept as it stands, from
 * the coldest to the hottest that the material is for.
 */
export const ruled = (
  of: Evidence,
  minutes: number,
  celsius: readonly [number, number],
): CureLaw => ({
  kind: 'table',
  rows: celsius.map((c) => ({ celsius: c, minutes })),
  trust: of.trust,
  source: of.source,
  spread: 1,
  factor: 1,
  overridden: false,
});

/**
 * What the catalogue follows one published temperature with. The stage that a gel time ends is
 * less steep than hardness: the pipe-coating chart gives 46 kJ/mol for gel and 83 for Shore D65.
 */
const ENERGIES = {
  polyester: {
    kjPerMol: 55,
    words:
      '55 kJ/mol, of the 40 to 60 that J. Appl. Polym. Sci. 102:1870 (2006) finds for peroxide and cobalt',
  },
  epoxy: {
    kjPerMol: 55,
    words:
      '55 kJ/mol, of the 44 to 57 and 55 to 60 in J. Appl. Polym. Sci. 56:1029 and Thermochim. Acta 447:167',
  },
  hardness: {
    kjPerMol: 83.2,
    words: `83.2 kJ/mol, fitted to the hardness of another epoxy (${SOURCES.hardnessChart})`,
  },
} as const;

/** One published temperature, from `low` to `high` minutes; other temperatures by a fallback that says so. */
export function single(
  of: Published,
  celsius: number,
  [low, high]: readonly [number, number],
  energy: keyof typeof ENERGIES,
): CureLaw {
  const { kjPerMol, words } = ENERGIES[energy];
  const law: ActivationLaw = {
    kind: 'activation',
    at: { celsius, minutes: Math.sqrt(low * high) },
    kjPerMol,
  };
  return {
    ...law,
    trust: of.trust,
    source: `${of.source}; away from ${celsius} °C a fallback: ${words}`,
    spread: Math.max(Math.sqrt(high / low), lawSpread('activation', of.trust, of.milestone)),
    factor: 1,
    overridden: false,
  };
}

/** The line of a data sheet that has the milestone, as builders and sheets call it. */
const LINES: Readonly<Record<Milestone, string>> = {
  'pot-life': 'pot life, or gel time of 100 g in a cup',
  'open-time': 'working time of the film, or open assembly time',
  gel: 'gel time of the film (thin-film set)',
  'tacky-opens': 'time until it can be touched and nothing comes off',
  'tacky-closes': 'time until it no longer grips what is laid on it',
  'bond-opens': 'recoat or overlaminating time, shortest',
  'bond-closes': 'recoat or overlaminating time without sanding, longest',
  'tack-free': 'tack-free time',
  'dust-safe': 'dust-free time',
  handle: 'time until clamps come off or it may be handled',
  sandable: 'time until it can be sanded',
  cured: 'full cure',
};

/** Every milestone without a law, with the line of the sheet to enter; `words` where a class calls it otherwise. */
export function missingOf(
  milestones: CureMaterial['milestones'],
  words: Partial<Record<Milestone, string>> = {},
): readonly MissingLine[] {
  return MILESTONES.filter((milestone) => milestones[milestone] === undefined).map((milestone) => ({
    milestone,
    line: words[milestone] ?? LINES[milestone],
  }));
}
