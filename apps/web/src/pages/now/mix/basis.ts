import { useYard } from '../../../frame/yard.tsx';
import { isReachable } from '../../../offline/reachable.ts';
import { now as texts } from '../../../texts/now.ts';
import { moment } from '../moments.ts';
import type { Briefing } from '../now-data.ts';

/**
 * On what rests what is known of the work, in words: as planned, or as it was when it was read. Null: it
 * is so now. A reading can move a window either way, so that nothing is forbidden by what was.
 */
export function useBasis({ isPlanned, asOf }: Pick<Briefing, 'isPlanned' | 'asOf'>): string | null {
  const { timeZone } = useYard();
  if (isPlanned) return texts.basis.planned;
  // What an earlier version of this page kept has no moment.
  if (typeof asOf === 'string') return texts.basis.asOf(moment(asOf, timeZone));
  return isReachable.value ? null : texts.basis.asRead;
}
