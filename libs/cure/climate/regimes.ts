import type { Climate, ClimateChange } from './settings.ts';

/** What governs the air of a space from minute `from` on. */
export interface Regime {
  readonly from: number;
  /** Time constant in minutes; 0: at once. */
  readonly tau: number;
  readonly warmerBy: number;
  /** A heater keeps it at least so warm; -Infinity without. */
  readonly atLeastC: number;
}

/** Whether a change is set up and on at a minute. */
export const isOn = ({ from, to }: { from: number; to: number }, minute: number): boolean =>
  from <= minute && minute < to;

/**
 * The regimes of a space, the first without beginning. Of several tents the one set up last
 * counts, of several heaters the warmest.
 */
export function regimesOf(climate: Climate, changes: readonly ClimateChange[]): Regime[] {
  const base = {
    lagHours: climate.lagHours ?? 0,
    warmerBy: climate.kind === 'outdoors' ? climate.warmerBy : 0,
  };
  const moments = changes.flatMap(({ from, to }) => [from, to]);
  const begins = [-Infinity, ...new Set(moments)].sort((a, b) => a - b);
  return begins.map((from) => {
    const on = changes.filter((change) => isOn(change, from));
    const tent = on
      .filter(({ kind }) => kind === 'tent')
      .reduce<ClimateChange | null>(
        (last, next) => (last && last.from > next.from ? last : next),
        null,
      );
    const heaters = on.map(({ kind, celsius }) =>
      kind === 'heater' ? (celsius ?? -Infinity) : -Infinity,
    );
    return {
      from,
      tau: (tent?.lagHours ?? base.lagHours) * 60,
      warmerBy: tent?.warmerBy ?? base.warmerBy,
      atLeastC: Math.max(-Infinity, ...heaters),
    };
  });
}
