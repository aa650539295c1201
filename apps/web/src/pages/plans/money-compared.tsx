import type { Schema } from '../../api/client.ts';
import { useYard } from '../../frame/yard.tsx';
import { Panel, Table } from '../../looks/looks.tsx';
import { money } from '../../show/units.ts';
import { plans as texts } from '../../texts/plans.ts';
import css from './plans.module.css';

type Money = Schema<'PlanMoney'>;

const rows = ['labour', 'overtime', 'slots', 'prices', 'total', 'climate'] as const;

/** What the work still to be done costs, and what more or less than by the other plan. */
export function MoneyCompared({
  now,
  before,
}: {
  readonly now: Money | null;
  readonly before: Money | null;
}) {
  const { currency } = useYard();
  if (now === null) return null;
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
    </Panel>
  );
}
