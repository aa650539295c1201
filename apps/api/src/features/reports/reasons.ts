import { report } from '../../platform/errors/report.ts';
import type { Reasons } from './reports.contract.ts';

/**
 * Refusals that may pass when more reports arrive: somebody else's finish, a claim that was sent from
 * another phone. The others contradict what is known, and are for the foreman.
 */
export const passing: readonly string[] = ['claim.not-ready', 'claim.state', 'claim.lapsed'];

/**
 * Why a report cannot be carried out. What is no fault of the report is thrown on: the service cannot
 * do it now, and the phone sends its queue again.
 */
export function reasonsOf(thrown: unknown): Reasons {
  const { status, code, detail, cure, faults } = report(thrown);
  if (status === 503 || status === 429) throw thrown;
  if (faults.length > 0) {
    return faults.map(({ code: of, path, message, cure: help }) => ({
      code: of,
      path,
      message,
      cure: help,
    }));
  }
  return [{ code, path: '', message: detail, cure }];
}
