import type { Schema } from '../../api/client.ts';
import { useYard } from '../../frame/yard.tsx';
import { Table } from '../../looks/looks.tsx';
import { dayAndClock, minutesBetween, span } from '../../show/time.ts';
import { plans as texts } from '../../texts/plans.ts';
import css from './plans.module.css';

/** Whether a promise is kept, in words too. */
export function Kept({
  promised,
  lateMinutes,
}: {
  readonly promised: string | null;
  readonly lateMinutes: number;
}) {
  if (promised === null) return <span class={css['soft']}>{texts.noPromise}</span>;
  return lateMinutes > 0 ? (
    <span class={css['late']}>{texts.late(span(lateMinutes))}</span>
  ) : (
    <span class={css['kept']}>{texts.kept}</span>
  );
}

/** When each boat of a plan is finished, beside its promise and what cannot be beaten. */
export function Finishes({ boats }: { readonly boats: readonly Schema<'PlanBoat'>[] }) {
  const { timeZone: zone } = useYard();
  return (
    <Table caption={texts.boatFinishes}>
      <thead>
        <tr>
          <th scope="col">{texts.boat}</th>
          <th scope="col">{texts.finish}</th>
          <th scope="col">{texts.promised}</th>
          <th scope="col">{texts.proved}</th>
        </tr>
      </thead>
      <tbody>
        {boats.map(({ refitId, boat, refit, finish, promised, lateMinutes, earliest }) => (
          <tr key={refitId}>
            <th scope="row">{texts.boatOf(boat, refit)}</th>
            <td class={css['moment']}>
              <div>{dayAndClock(finish.at, zone)}</div>
              <Kept promised={promised?.at ?? null} lateMinutes={lateMinutes} />
            </td>
            <td>{promised === null ? '–' : dayAndClock(promised.at, zone)}</td>
            <td>{dayAndClock(earliest.at, zone)}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}

/** The same in one line a boat, of what a list of plans knows. */
export function ShortFinishes({
  refits,
  names,
}: {
  readonly refits: readonly Schema<'PlannedRefit'>[];
  readonly names: ReadonlyMap<string, string>;
}) {
  const { timeZone: zone } = useYard();
  return (
    <ul class={css['finishes']} aria-label={texts.boatFinishes}>
      {refits.map(({ refitId, finish, promised }) => (
        <li key={refitId}>
          {names.get(refitId) ?? refitId}: {dayAndClock(finish, zone)}{' '}
          <Kept
            promised={promised}
            lateMinutes={promised === null ? 0 : Math.max(0, minutesBetween(promised, finish))}
          />
        </li>
      ))}
    </ul>
  );
}
