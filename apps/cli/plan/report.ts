import type { Calibration } from '#cure/calibration/observed.ts';
import type { RunResult } from '#host/run-solve.ts';
import type { DomainError, Fault } from '#kernel/error.ts';
import type { SolveResult } from '#scheduling/model/plan.ts';
import type { PlanMap } from '#planning/compile/trace/map.ts';
import type { Shortening } from '#planning/decode/explain/what-shortens.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';
import type { Warning } from '#planning/yard/check/bonds/bonds.ts';

function faultLines(label: string, { path, value, message, cure }: Fault): string[] {
  const where = path === '' ? label : `${label}: ${path}`;
  const shown = value === undefined ? [] : [`  found: ${JSON.stringify(value)}`];
  return [`${where}: ${message}`, ...shown, `  cure: ${cure}`];
}

/** Everything wrong with the input: file, path in it, value, cure. */
export function refusal(label: string, error: DomainError): string {
  const lines =
    error.faults.length === 0
      ? [error.message, `  cure: ${error.cure}`]
      : error.faults.flatMap((found) => faultLines(label, found));
  return `${lines.join('\n')}\n`;
}

/** What would shorten a boat's refit, the largest gain first. */
export interface BoatShortening {
  readonly refitId: string;
  readonly boat: string;
  readonly refit: string;
  readonly shortenings: readonly Shortening[];
}

/** What `--json` prints and `--out` writes. */
export interface PlanFile {
  readonly format: 'curewright-plan';
  readonly version: 1;
  readonly problemHash: string;
  readonly seed: number;
  readonly iterations: number;
  /** What is to be looked at in the yard file, which was planned all the same. */
  readonly warnings: readonly Warning[];
  readonly sheet: PlanSheet;
  readonly map: PlanMap;
  readonly result: Pick<SolveResult, 'status' | 'plan' | 'bounds'>;
  /** With `--shorten` only. */
  readonly shortening?: readonly BoatShortening[];
}

/** For people: path, what it is, and its source where it has one. */
export function warningLines(warnings: readonly Warning[]): string {
  if (warnings.length === 0) return '';
  const lines = warnings.map(({ path, message, source }) => {
    const cited = source === null ? '' : ` [${source}]`;
    return `  ${path}: ${message}${cited}`;
  });
  return `${['', 'To be looked at in the yard file', ...lines, ''].join('\n')}\n`;
}

const times = (factor: number): string => factor.toFixed(2);

/** What the yard's own findings make of its materials, and which of them were left out, and why. */
export function findingLines(
  materials: readonly { readonly id: string; readonly name: string }[],
  calibrations: ReadonlyMap<string, readonly Calibration[]>,
): string {
  const lines = materials.flatMap(({ id, name }) =>
    (calibrations.get(id) ?? []).flatMap(({ milestone, factor, spread, evidence }) => {
      const out = evidence.filter(({ flag }) => flag !== null);
      const counted = evidence.length - out.length;
      return [
        `  ${name}, ${milestone}: ${times(factor)} times the sheet's, give or take a factor of ${times(spread)}, from ${String(counted)} of ${String(evidence.length)} findings`,
        ...out.map(({ finding, words }) => `    ${finding.id} is left out: ${words}`),
      ];
    }),
  );
  return lines.length === 0
    ? ''
    : `${['', 'What the yard has found itself', ...lines, ''].join('\n')}\n`;
}

/** So many things a boat are printed. */
const TOLD = 5;

/** For people: what would shorten each boat's refit most. */
export function shorteningLines(boats: readonly BoatShortening[]): string {
  const lines = boats.flatMap(({ boat, refit, shortenings }) => [
    `  ${boat}, ${refit}`,
    ...shortenings.slice(0, TOLD).map(({ text }) => `    ${text}`),
    ...(shortenings.length === 0
      ? ['    Nothing that holds it up, eased by itself, was found to.']
      : []),
  ]);
  return `${['', 'What would shorten it most', ...lines, ''].join('\n')}\n`;
}

/** How the search went, for people. */
export function searchLine(result: RunResult, seed: number, seconds: number): string {
  const first =
    result.firstPlanMs === null
      ? 'no plan'
      : `first plan after ${(result.firstPlanMs / 1000).toFixed(2)} s`;
  const short = result.shortOfMemory ? '; short of memory, so less was searched' : '';
  return `Search: ${result.status}; ${first}, ${String(result.iterations)} iterations in ${seconds.toFixed(1)} s, best found at ${String(result.foundAt)}, seed ${String(seed)}${short}\n`;
}
