import { mouldingShopReasons } from '#cure/air/moulding-shop.ts';
import { airVerdict, type Verdict } from '#cure/air/verdict.ts';
import { hourly, type Hour } from '#cure/climate/hourly.ts';
import type { Limits } from '#cure/material/material.ts';
import type { When } from '../decode/sheet.ts';
import type { Yard } from '../yard/yard.ts';
import { around, askedSpace, askedMaterial, assertSpan } from './around.ts';

export interface ClimateQuestion {
  readonly space: string;
  readonly from: string;
  readonly until: string;
  /** Whether it may be applied then is said besides. */
  readonly material: string | null;
}

export interface ClimateHour extends Omit<Hour, 'minute'> {
  readonly when: When;
  /** Of the material asked about, by the coldest and the warmest that the hour may be. */
  readonly verdict: Verdict | null;
  readonly reasons: readonly string[];
  /** In what it falls short of what a class rule asks of a moulding shop, whatever the material. */
  readonly mouldingShop: readonly string[];
}

const LONGEST_DAYS = 31;
const WORST_FIRST: readonly Verdict[] = ['refuse', 'unknown', 'warn', 'fine'];

/**
 * A space hour by hour, from the full hour at or before `from`: temperatures as far as they are
 * known, humidity, dew point and margin. Throws yard.reference and input.field.
 */
export function climateHours(yard: Yard, asked: ClimateQuestion): ClimateHour[] {
  const { space, from, until, material } = asked;
  askedSpace(yard, space);
  if (material !== null) askedMaterial(yard, material);
  assertSpan(from, until, LONGEST_DAYS, ['from', 'until']);
  const { films, frame, at } = around(yard, from, LONGEST_DAYS + 1, {
    spaces: [space],
    materials: material === null ? [] : [material],
  });
  const limits = material === null ? null : films.material(material).limits;
  const climate = films.climate(space);
  return hourly(climate, 0, frame.minuteOf(until)).map(({ minute, ...hour }) => ({
    when: at.when(minute),
    ...hour,
    mouldingShop: mouldingShopReasons(climate, minute, false),
    ...(limits === null ? { verdict: null, reasons: [] } : judged(limits, hour)),
  }));
}

/** As a plan does: a surface that may be too cold or damp counts as one, and one that may be too hot. */
function judged(
  limits: Limits,
  { air, surface, humidity }: Omit<Hour, 'minute'>,
): { verdict: Verdict; reasons: readonly string[] } {
  const cold = airVerdict(limits, { surfaceC: surface.cold, airC: air.expected, humidity });
  const dry = { ...limits, maximumHumidity: null, minimumDewMarginC: null };
  const warm = airVerdict(dry, { surfaceC: surface.warm, airC: air.warm, humidity });
  const heat = warm.verdict === 'refuse' && warm.reasons.some((one) => !cold.reasons.includes(one));
  const verdicts = heat ? [cold.verdict, warm.verdict] : [cold.verdict];
  const reasons = heat ? [...cold.reasons, ...warm.reasons] : cold.reasons;
  return {
    verdict: WORST_FIRST.find((one) => verdicts.includes(one)) ?? 'fine',
    reasons: [...new Set(reasons)],
  };
}
