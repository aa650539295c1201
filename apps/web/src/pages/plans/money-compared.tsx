import type { Schema } from '../../api/client.ts';
import { useYard } from '../../frame/yard.tsx';
import { Panel, Table } from '../../looks/looks.tsx';
import { money } from '../../show/units.ts';
import { plans as texts } from '../../texts/plans.ts';
import { notComparable } from './comparable.ts';
import css from './plans.module.css';

type Plan = Schema<'Plan'>;

const rows = ['labour', 'overtime', 'slots', 'prices', 'total', 'climate'] as const;

/** What the work still to be done costs, and what more or less than by the other plan, where that can be said. */
export function MoneyCompared({
  plan,
  against,
}: {
  readonly plan: Plan;
  readonly against: Plan | null;
}) {
  const { currency } = useYard();
  const { money: now } = plan;
  if (now === null) return null;
  const why = against === null ? null : notComparable(plan, against);
  const before = why === null ? (against?.money ?? null) : null;
  const signed = (cents: number): string =>
    cents > 0 ? texts.more(money(cents, currency)) : money(cents, currency);
  const shown = rows.filter(
    (row) => row === 'total' || now[row] !== 0 || (before !== null && before[row] !== 0),
  );
  return (
    <Panel title={texts.money}>
      <Table caption={texts.money}>
        {before !== null && (
          <thead class={css['money']}>
            <tr>
              <td />
              <th scope="col">{texts.now}</th>
              <th scope="col">{texts.difference}</th>
            </tr>
          </thead>
        )}
        <tbody class={css['money']}>
          {shown.map((row) => (
            <tr key={row}>
              <th scope="row">{texts.moneyRows[row]}</th>
              <td>{money(now[row], currency)}</td>
              {before !== null && <td>{signed(now[row] - before[row])}</td>}
            </tr>
          ))}
        </tbody>
      </Table>
      {why !== null && <p class={css['soft']}>{texts.notComparable[why]}</p>}
    </Panel>
  );
}
