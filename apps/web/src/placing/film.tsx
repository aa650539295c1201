import { useYard } from '../frame/yard.tsx';
import { Panel, Table } from '../looks/looks.tsx';
import { dayAndClock } from '../show/time.ts';
import { placing as texts } from '../texts/placing.ts';
import css from './placing.module.css';
import { type PlanTask, spanWords } from './plan-task.ts';

/** When what it lays reaches its milestones, what it bonds to, and which windows it opens. */
export function Film({ task }: { readonly task: PlanTask }) {
  const { film, windows, bond } = task;
  if (film.length === 0 && windows.length === 0 && bond === null) return null;
  return (
    <Panel title={texts.film} level={3}>
      {film.length > 0 && <Milestones film={film} />}
      {bond !== null && (
        <p>
          <strong>{texts.bond}</strong> {bond.surface}: {texts.bondHow[bond.bond]}. {bond.reason}{' '}
          {bond.preparation.length > 0 && texts.prepare(bond.preparation)}{' '}
          <span class={css['soft']}>{texts.source(bond.source)}</span>
        </p>
      )}
      <Windows windows={windows} />
    </Panel>
  );
}

function Milestones({ film }: Pick<PlanTask, 'film'>) {
  const { timeZone: zone } = useYard();
  return (
    <Table caption={texts.film}>
      <thead>
        <tr>
          <th scope="col">{texts.milestone}</th>
          <th scope="col">{texts.safe}</th>
          <th scope="col">{texts.expected}</th>
          <th scope="col">{texts.touch}</th>
        </tr>
      </thead>
      <tbody>
        {film.map(({ milestone, words, when, earliest, latest, touchTest }) => (
          <tr key={milestone}>
            <th scope="row">{words}</th>
            <td>{when === null ? texts.notInSight : dayAndClock(when.at, zone)}</td>
            <td>
              {earliest !== null &&
                latest !== null &&
                spanWords({ start: earliest, finish: latest }, zone)}
            </td>
            <td>{touchTest}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}

function Windows({ windows }: Pick<PlanTask, 'windows'>) {
  const { timeZone: zone } = useYard();
  if (windows.length === 0) return null;
  return (
    <>
      <h4>{texts.windows}</h4>
      <ul>
        {windows.map(({ linkId, toName, opens, closes }) => {
          const ends = [
            ...(opens === null ? [] : [texts.windowOpens(dayAndClock(opens.at, zone))]),
            ...(closes === null ? [] : [texts.windowCloses(dayAndClock(closes.at, zone))]),
          ];
          return (
            <li key={linkId}>
              {toName}: {ends.length === 0 ? texts.notInSight : ends.join('; ')}
            </li>
          );
        })}
      </ul>
    </>
  );
}
