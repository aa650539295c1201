import type { Schema } from '../api/client.ts';
import { dateIn } from '../show/time.ts';
import { deciding as texts } from '../texts/deciding.ts';
import { listed } from '../texts/language.ts';

export type PriceBoat = Pick<
  Schema<'PriceBoat'>,
  'boat' | 'with' | 'without' | 'lateWith' | 'lateWithout'
>;

export interface Figure {
  readonly words: string;
  readonly tone: 'harm' | 'heed' | 'well';
}

/** Days of the yard's calendar: a night is one of them, however short. */
const dayNumber = (at: string, zone: string): number =>
  Math.round(Date.parse(`${dateIn(at, zone)}T00:00:00Z`) / 86_400_000);

function figureOf(boat: PriceBoat, zone: string): Figure {
  const { lateWith, lateWithout } = boat;
  const days = dayNumber(boat.with, zone) - dayNumber(boat.without, zone);
  const isWorse = lateWith > lateWithout;
  const moved = days === 0 ? texts.sameDay : days > 0 ? texts.later(days) : texts.earlier(-days);
  const breaks = lateWithout > 0 ? texts.lateEitherWay : texts.breaks;
  return {
    words: lateWith === 0 ? moved : `${moved}, ${breaks}`,
    tone: isWorse ? 'harm' : days > 0 ? 'heed' : 'well',
  };
}

/** What becomes of each boat, the worst first; boats of which the same is to be said in one figure. */
export function boatFigures(boats: readonly PriceBoat[], zone: string): Figure[] {
  const found = boats.map((boat) => ({ boat: boat.boat, ...figureOf(boat, zone) }));
  const groups = Map.groupBy(found, ({ words, tone }) => `${tone} ${words}`);
  const order = ['harm', 'heed', 'well'];
  return [...groups.values()]
    .map((group) => ({
      words: texts.finish(listed([...new Set(group.map(({ boat }) => boat))]), group[0].words),
      tone: group[0].tone,
    }))
    .sort((a, b) => order.indexOf(a.tone) - order.indexOf(b.tone));
}
