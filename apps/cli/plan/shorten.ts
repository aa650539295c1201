import { EFFORT, runShortening, type ShorteningOrder } from '#host/run-shortening.ts';
import type { SheetBoat } from '#planning/decode/sheet.ts';
import type { BoatShortening } from './report.ts';

/** The boats that are late; all of them where none is. */
export function boatsAsked(boats: readonly SheetBoat[]): readonly SheetBoat[] {
  const late = boats.filter(({ lateMinutes }) => lateMinutes > 0);
  return late.length > 0 ? late : boats;
}

/** What would shorten each boat's refit; those asked about before `signal` was aborted. */
export async function shorten(
  plan: Pick<ShorteningOrder, 'problem' | 'plan' | 'map' | 'seed'>,
  boats: readonly SheetBoat[],
  signal: AbortSignal,
): Promise<BoatShortening[]> {
  const told: BoatShortening[] = [];
  for (const { refitId, boat, refit } of boats) {
    const order = { ...plan, refit: refitId, iterations: EFFORT };
    try {
      const shortenings = await runShortening(order, signal);
      if (shortenings !== null) told.push({ refitId, boat, refit, shortenings });
    } catch (error) {
      if (signal.aborted) break;
      throw error;
    }
  }
  return told;
}
