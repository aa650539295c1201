import { api, asked } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { useTitle } from '../../frame/title.ts';
import { person } from '../../session/session.ts';
import { account as texts } from '../../texts/account.ts';
import css from './account.module.css';
import { Notifications } from './notifications.tsx';
import { Passkeys } from './passkeys.tsx';
import { Password } from './password.tsx';
import { SecondFactor } from './second-factor.tsx';
import { Sessions } from './sessions.tsx';
import { You } from './you.tsx';
import { Yards } from './yards.tsx';

/** What belongs to a person and not to a yard. Moments are in the zone of their first yard. */
export default function Account() {
  useTitle(texts.title);
  const me = person.value;
  const yards = useResource('yards', (signal) => asked(api.GET('/api/v1/yards', { signal })));
  const factor = useResource('second factor', (signal) =>
    asked(api.GET('/api/v1/second-factor', { signal })),
  );
  if (!me) return null;
  const zone = yards.data?.items.at(0)?.timeZone ?? 'UTC';
  return (
    <div class={css['page']}>
      <h1>{texts.title}</h1>
      <You me={me} />
      <Yards me={me} />
      <Notifications zone={zone} />
      <Password />
      <SecondFactor factor={factor} zone={zone} />
      <Passkeys factor={factor} zone={zone} />
      <Sessions zone={zone} />
      <p class={css['note']}>{texts.times(zone)}</p>
    </div>
  );
}
