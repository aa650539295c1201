import type { Schema } from '../api/client.ts';
import { useYard } from '../frame/yard.tsx';
import { Notice, Stack } from '../looks/looks.tsx';
import { dayAndClock } from '../show/time.ts';
import { money } from '../show/units.ts';
import { deciding as texts } from '../texts/deciding.ts';
import css from './deciding.module.css';
import { boatFigures } from './price-figures.ts';

type Proposal = Schema<'Proposal'>;

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
      {proposal.outdated && (
        <Notice tone="heed" title={texts.outdated} isNews>
          <p>{texts.outdatedCure}</p>
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
      {boatFigures(boats, zone).map(({ words, tone }) => (
        <li key={words} data-tone={tone}>
          {words}
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
