import type { Schema } from '../../api/client.ts';
import { useYard } from '../../frame/yard.tsx';
import { Panel, Table } from '../../looks/looks.tsx';
import { dayAndClock, span } from '../../show/time.ts';
import { plans as texts } from '../../texts/plans.ts';
import { Kept } from './finishes.tsx';
import css from './plans.module.css';

type Boat = Schema<'BoatDifference'>;

/** Days where the day is another one, else the time. */
function changeWords({ minutes, days, after }: Boat): string {
  if (after === null) return texts.notPlanned;
  if (minutes === null || minutes === 0) return texts.same;
  const much = days === null || days === 0 ? span(Math.abs(minutes)) : texts.daysOf(Math.abs(days));
  return minutes > 0 ? texts.lost(much) : texts.gained(much);
}

export function BoatsCompared({ boats }: { readonly boats: readonly Boat[] }) {
  const { timeZone: zone } = useYard();
  const moment = (at: { readonly at: string } | null): string =>
    at === null ? '–' : dayAndClock(at.at, zone);
  return (
    <Panel title={texts.boatFinishes}>
      <Table caption={texts.boatFinishes}>
        <thead>
          <tr>
            <th scope="col">{texts.boat}</th>
            <th scope="col">{texts.after}</th>
            <th scope="col">{texts.change}</th>
            <th scope="col">{texts.before}</th>
            <th scope="col">{texts.promised}</th>
          </tr>
        </thead>
        <tbody>
          {boats.map((one) => (
            <tr key={one.refitId}>
              <th scope="row">{texts.boatOf(one.boat, one.refit)}</th>
              <td class={css['moment']}>
                <div>{moment(one.after)}</div>
                <Kept promised={one.promised?.at ?? null} lateMinutes={one.lateAfter} />
              </td>
              <td class={(one.minutes ?? 0) > 0 ? css['late'] : undefined}>{changeWords(one)}</td>
              <td>{moment(one.before)}</td>
              <td>{moment(one.promised)}</td>
            </tr>
          ))}
        </tbody>
      </Table>
    </Panel>
  );
}

export function WindowsCompared({ windows }: Pick<Schema<'PlanDifference'>, 'windows'>) {
  const { lost, regained } = windows;
  if (lost.length === 0 && regained.length === 0) return null;
  return (
    <>
      {lost.length > 0 && (
        <Panel title={texts.windowsLost}>
          <Windows windows={lost} />
          <p class={css['soft']}>{texts.missed}</p>
        </Panel>
      )}
      {regained.length > 0 && (
        <Panel title={texts.windowsWon}>
          <Windows windows={regained} />
        </Panel>
      )}
    </>
  );
}

function Windows({ windows }: { readonly windows: readonly Schema<'WindowDifference'>[] }) {
  const { timeZone: zone } = useYard();
  return (
    <ul class={css['words']}>
      {windows.map(({ linkId, boat, part, from, to, closes }) => (
        <li key={linkId}>
          {texts.window(texts.boatOf(boat, part), from, to, dayAndClock(closes.at, zone))}
        </li>
      ))}
    </ul>
  );
}
