import { useYard } from '../frame/yard.tsx';
import { Notice, Panel, Table } from '../looks/looks.tsx';
import { units } from '../session/session.ts';
import { dayAndClock } from '../show/time.ts';
import { quantity } from '../show/units.ts';
import { placing as texts } from '../texts/placing.ts';
import type { PlanTask } from './plan-task.ts';

type MixSheet = NonNullable<PlanTask['mix']>;

/** What is weighed for it, cup by cup, and how that was reckoned. */
export function Mix({ mix }: Pick<PlanTask, 'mix'>) {
  if (mix === null) return null;
  return (
    <Panel title={texts.mix} level={3}>
      <p>
        <strong>{mix.material}</strong> {mix.ratio}
      </p>
      {mix.missing.length > 0 && (
        <Notice tone="heed">
          {mix.missing.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </Notice>
      )}
      {mix.cups.length > 0 && <Cups mix={mix} />}
      {mix.steps.length > 0 && (
        <details>
          <summary>{texts.reckoning}</summary>
          <ol>
            {mix.steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </details>
      )}
    </Panel>
  );
}

function Cups({ mix: { cups } }: { readonly mix: MixSheet }) {
  const { timeZone: zone } = useYard();
  const mine = units.value;
  return (
    <Table caption={texts.cups}>
      <thead>
        <tr>
          <th scope="col">{texts.cup}</th>
          <th scope="col">{texts.resin}</th>
          <th scope="col">{texts.hardener}</th>
          <th scope="col">{texts.mixAt}</th>
          <th scope="col">{texts.spreadBy}</th>
        </tr>
      </thead>
      <tbody>
        {cups.map((cup) => {
          const hardener = quantity('mass', cup.hardenerGrams, mine);
          return (
            <tr key={cup.number}>
              <th scope="row">{cup.number}</th>
              <td>{quantity('mass', cup.resinGrams, mine)}</td>
              <td>
                {cup.hardenerMl === null
                  ? hardener
                  : texts.orMl(hardener, quantity('volume', cup.hardenerMl, mine))}
              </td>
              <td>{dayAndClock(cup.mixAt.at, zone)}</td>
              <td>{dayAndClock(cup.spreadBy.at, zone)}</td>
            </tr>
          );
        })}
      </tbody>
    </Table>
  );
}
