import type { Schema } from '../api/client.ts';
import { useYard } from '../frame/yard.tsx';
import { Notice, Stack } from '../looks/looks.tsx';
import { dateIn, dayAndClock } from '../show/time.ts';
import { money } from '../show/units.ts';
import { deciding as texts } from '../texts/deciding.ts';
import css from './deciding.module.css';

type Proposal = Schema<'Proposal'>;
type PriceBoat = Schema<'PriceBoat'>;

/** What is proposed, and what it would cost in days, hours, materials and, where told, money. */
export function Price({ proposal }: { readonly proposal: Proposal | null }) {
  const { timeZone: zone } = useYard();
  if (proposal === null) return <p>{texts.notPriced}</p>;
  return (
    <Stack>
      <div>
        <List lines={proposal.meaning} />
        <p class={css['soft']} role="status">
          {proposal.state === 'pricing' && texts.pricing}
        </p>
      </div>
      {proposal.state === 'unplannable' && (
        <Notice tone="heed" title={texts.unplannable}>
          <List lines={proposal.why} />
        </Notice>
      )}
      {proposal.price !== null && <Figures price={proposal.price} />}
      <List lines={proposal.words} />
      {proposal.pricedAt !== null && (
        <p class={css['soft']}>{texts.pricedAt(dayAndClock(proposal.pricedAt, zone))}</p>
      )}
    </Stack>
  );
}

function List({ lines }: { readonly lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <ul class={css['lines']}>
      {lines.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
}

/** What is asked first: how many days, and how much. */
function Figures({ price: { boats, cents } }: { readonly price: NonNullable<Proposal['price']> }) {
  const { currency, timeZone: zone } = useYard();
  return (
    <ul class={css['figures']}>
      {boats.map((boat) => (
        <li key={boat.refitId} data-tone={toneOf(boat, zone)}>
          {texts.finish(boat.boat, movedWords(boat, zone))}
        </li>
      ))}
      {cents !== null && (
        <li>
          {texts.money}: {moneyWords(cents, currency)}
        </li>
      )}
    </ul>
  );
}

function moneyWords(cents: number, currency: string): string {
  if (cents === 0) return texts.nothing;
  const sum = money(Math.abs(cents), currency);
  return cents < 0 ? texts.less(sum) : texts.more(sum);
}

const daysLater = (boat: PriceBoat, zone: string): number =>
  dayNumber(boat.with, zone) - dayNumber(boat.without, zone);

const toneOf = (boat: PriceBoat, zone: string): string =>
  boat.lateWith > boat.lateWithout ? 'harm' : daysLater(boat, zone) > 0 ? 'heed' : 'well';

function movedWords(boat: PriceBoat, zone: string): string {
  const count = daysLater(boat, zone);
  const moved =
    count === 0 ? texts.sameDay : count > 0 ? texts.later(count) : texts.earlier(-count);
  if (boat.lateWith === 0) return moved;
  return `${moved}, ${boat.lateWith > boat.lateWithout ? texts.breaks : texts.lateEitherWay}`;
}

/** Days of the yard's calendar: a night is one of them, however short. */
const dayNumber = (at: string, zone: string): number =>
  Math.round(Date.parse(`${dateIn(at, zone)}T00:00:00Z`) / 86_400_000);
