import type { DomainError, Fault } from '#kernel/error.ts';
import type { SolveResult } from '#scheduling/model/plan.ts';
import type { PlanMap } from '#planning/compile/map.ts';
import type { PlanSheet } from '#planning/decode/sheet.ts';

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

/** What `--json` prints and `--out` writes. */
export interface PlanFile {
  readonly format: 'curewright-plan';
  readonly version: 1;
  readonly problemHash: string;
  readonly seed: number;
  readonly iterations: number;
  readonly sheet: PlanSheet;
  readonly map: PlanMap;
  readonly result: Pick<SolveResult, 'status' | 'plan' | 'bounds'>;
}

/** How the search went, for people. */
export function searchLine(
  result: SolveResult & { readonly firstPlanMs: number | null },
  seed: number,
  seconds: number,
): string {
  const first =
    result.firstPlanMs === null
      ? 'no plan'
      : `first plan after ${(result.firstPlanMs / 1000).toFixed(2)} s`;
  return `Search: ${result.status}; ${first}, ${String(result.iterations)} iterations in ${seconds.toFixed(1)} s, best found at ${String(result.foundAt)}, seed ${String(seed)}\n`;
}
