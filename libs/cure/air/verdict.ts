import type { Limits } from '../material/material.ts';
import { dewPoint } from './dew-point.ts';

export interface Conditions {
  readonly surfaceC: number;
  readonly airC: number;
  /** Percent relative humidity; null: not known. */
  readonly humidity: number | null;
}

/** `unknown`: nothing speaks against it, but a limit cannot be checked. */
export type Verdict = 'fine' | 'warn' | 'refuse' | 'unknown';

interface Finding {
  readonly verdict: Exclude<Verdict, 'fine'>;
  readonly reason: string;
}

const WORST_FIRST = ['refuse', 'unknown', 'warn'] as const;

const degrees = (celsius: number): string => `${celsius.toFixed(1)} °C`;
const percent = (rh: number): string => `${rh.toFixed(0)} %`;

function warmth(limits: Limits, { surfaceC, airC }: Conditions): Finding[] {
  const out: Finding[] = [];
  const minimum = limits.minimumC.value;
  const warnBelow = limits.warnBelowC?.value ?? minimum;
  if (surfaceC < minimum) {
    const spoils = limits.belowMinimum === 'spoils';
    const what = spoils ? 'the film is lost' : 'the cure stands still';
    const reason = `The surface is at ${degrees(surfaceC)}; below ${degrees(minimum)} ${what}`;
    out.push({ verdict: spoils ? 'refuse' : 'warn', reason });
  } else if (surfaceC < warnBelow) {
    const reason = `The surface is at ${degrees(surfaceC)}; ${degrees(warnBelow)} or more is advised`;
    out.push({ verdict: 'warn', reason });
  }
  const maximum = limits.maximumC.value;
  for (const [thing, celsius] of [
    ['surface', surfaceC],
    ['air', airC],
  ] as const) {
    if (celsius <= maximum) continue;
    const reason = `The ${thing} is at ${degrees(celsius)}, warmer than ${degrees(maximum)}`;
    out.push({ verdict: 'refuse', reason });
  }
  return out;
}

function damp(limits: Limits, { surfaceC, airC, humidity }: Conditions): Finding[] {
  const wettest = limits.maximumHumidity?.value ?? null;
  const margin = limits.minimumDewMarginC?.value ?? null;
  if (humidity === null) {
    const asks = [
      wettest === null ? [] : [`at most ${percent(wettest)}`],
      margin === null ? [] : [`a surface ${margin.toFixed(1)} degrees above the dew point`],
    ].flat();
    if (asks.length === 0) return [];
    const reason = `The humidity is not known; the material asks for ${asks.join(' and ')}`;
    return [{ verdict: 'unknown', reason }];
  }
  const out: Finding[] = [];
  if (wettest !== null && humidity > wettest) {
    const reason = `The air has ${percent(humidity)} humidity, more than ${percent(wettest)}`;
    out.push({ verdict: limits.dampAir, reason });
  }
  const dew = dewPoint(airC, humidity);
  if (margin !== null && surfaceC - dew < margin) {
    const above = `${(surfaceC - dew).toFixed(1)} degrees above the dew point of ${degrees(dew)}`;
    const reason = `The surface, ${degrees(surfaceC)}, is ${above}; ${margin.toFixed(1)} are needed`;
    out.push({ verdict: limits.dampAir, reason });
  }
  return out;
}

/**
 * Whether a material may be applied in such conditions, and why not: each limit that is not
 * met, with the value found. The worst counts: refuse, unknown, warn, fine. Limits hold at
 * their value; a humidity or margin just on its limit is fine.
 */
export function airVerdict(
  limits: Limits,
  conditions: Conditions,
): { readonly verdict: Verdict; readonly reasons: readonly string[] } {
  const found = [...warmth(limits, conditions), ...damp(limits, conditions)];
  const verdict = WORST_FIRST.find((level) => found.some((one) => one.verdict === level)) ?? 'fine';
  return { verdict, reasons: found.map(({ reason }) => reason) };
}
