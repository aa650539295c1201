import { ButtonLink, Panel } from '../../looks/looks.tsx';
import type { Person } from '../../session/session.ts';
import { account as texts } from '../../texts/account.ts';
import { common } from '../../texts/common.ts';
import { listed } from '../../texts/language.ts';
import css from './account.module.css';

/** Where the account is let in; the way to begin a yard. */
export function Yards({ me }: { readonly me: Person }) {
  return (
    <Panel title={texts.yards}>
      {me.memberships.length === 0 ? (
        <p>{texts.noYards}</p>
      ) : (
        <ul class={css['list']}>
          {me.memberships.map(({ yardId, yard, roles }) => (
            <li key={yardId}>{texts.as(yard, listed(roles.map((role) => common.role[role])))}</li>
          ))}
        </ul>
      )}
      <div>
        <ButtonLink to="/begin">{texts.begin}</ButtonLink>
      </div>
    </Panel>
  );
}
