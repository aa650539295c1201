import { normalise } from '#calendar/intervals.ts';
import type { SpaceClimate } from '#cure/climate/space-climate.ts';
import type { CureClock } from '#cure/clock/cure-clock.ts';
import type { Span, TemperatureBand } from '#cure/clock/series.ts';
import type { CureMaterial, Limits, Milestone } from '#cure/material/material.ts';
import { forbiddenStarts } from '#cure/windows/forbidden.ts';
import type { Extremes } from '../climate/climate.ts';

/** Why a material refuses a start: what the film would meet, or what was or would not be kept. */
export const REFUSALS = ['cold', 'warm', 'damp', 'preheat', 'hold'] as const;
export type Refusal = (typeof REFUSALS)[number];

/** Starts that a material refuses for one reason: sorted, disjoint, from 0 to the horizon. */
export interface Refused {
  readonly kind: Refusal;
  readonly spans: readonly Span[];
}

/** From when on cold and damp do a film no harm. */
export const safeOf = ({ milestones }: CureMaterial): Milestone =>
  milestones['tack-free'] === undefined ? 'dust-safe' : 'tack-free';

/** Where work is laid, and the surfaces and the clock of everywhere that its film may be before it is safe. */
interface Laying {
  readonly climate: SpaceClimate;
  readonly surface: TemperatureBand;
  readonly safeClock: () => CureClock;
  /** Of the air where it is laid, and of the surfaces. */
  readonly extremes: Extremes;
}

/**
 * The limits with nothing asked for but what one reason is about; null where that is nothing, or
 * nothing that such temperatures would ever miss.
 */
function onlyFor(kind: Refusal, limits: Limits, { low, high }: Extremes): Limits | null {
  const none: Limits = {
    ...limits,
    belowMinimum: 'stalls',
    maximumC: { ...limits.maximumC, value: Infinity },
    dampAir: 'warn',
    preheatHours: null,
    holdHours: null,
  };
  const { minimumC, belowMinimum, maximumC, dampAir, preheatHours, holdHours } = limits;
  const cold = low < minimumC.value;
  const asked = (hours: Limits['holdHours']): boolean => hours !== null && hours.value > 0;
  switch (kind) {
    case 'cold':
      return cold && belowMinimum === 'spoils' ? { ...none, belowMinimum } : null;
    case 'warm':
      return high > maximumC.value ? { ...none, maximumC } : null;
    case 'damp':
      return dampAir === 'refuse' ? { ...none, dampAir } : null;
    case 'preheat':
      return cold && asked(preheatHours) ? { ...none, preheatHours } : null;
    case 'hold':
      return cold && asked(holdHours) ? { ...none, holdHours } : null;
  }
}

/** Most films are safe from cold and damp after so long (common practice, no source). */
const SAFE_BY = 2 * 1440;

/** Minutes after it is laid in which the climate may still make a start one that is refused. */
export function watched({ limits }: Pick<CureMaterial, 'limits'>): number {
  const { belowMinimum, dampAir, maximumHumidity, minimumDewMarginC, holdHours } = limits;
  const damp = dampAir === 'refuse' && (maximumHumidity !== null || minimumDewMarginC !== null);
  const hold = (holdHours?.value ?? 0) * 60;
  return Math.max(hold, damp || belowMinimum === 'spoils' ? SAFE_BY : 0);
}

/** Starts refused to work of a minute, reason by reason. No work of a plan reaches beyond the horizon. */
export function refusedBy(
  material: CureMaterial,
  { climate, surface, safeClock, extremes }: Laying,
  horizon: number,
): readonly Refused[] {
  const safe = safeOf(material);
  return REFUSALS.flatMap((kind) => {
    const limits = onlyFor(kind, material.limits, extremes);
    if (limits === null) return [];
    // Cold may meet it wherever it is taken; the rest is of where it is laid.
    const there = kind === 'cold' ? { ...climate, surface } : climate;
    const asked = { ...material, limits };
    const spans = forbiddenStarts(asked, there, safe, 1, horizon, safeClock);
    return [{ kind, spans }];
  });
}

/**
 * The same for longer work: what may not be met is met by as many earlier starts as the work has
 * more minutes. That a space has been warm before counts from the start, however long the work.
 */
export function forWork(
  refused: readonly Refused[],
  minutes: number,
  horizon: number,
): readonly Refused[] {
  const more = Math.max(0, minutes - 1);
  return refused.flatMap(({ kind, spans }) => {
    const earlier = kind === 'preheat' ? 0 : more;
    const found = normalise(
      spans.map(({ start, end }) => ({
        start: Math.max(0, Math.floor(start) - earlier),
        end: Math.min(horizon + 1, Math.ceil(end)),
      })),
    );
    return found.length === 0 ? [] : [{ kind, spans: found }];
  });
}
