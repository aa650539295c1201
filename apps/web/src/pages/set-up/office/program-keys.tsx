import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { everyPage, pageAfter, useResource } from '../../../api/resource.ts';
import { SeveralField, TextField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Notice, Panel, ProblemNotice, Stack } from '../../../looks/looks.tsx';
import { dayAndClock } from '../../../show/time.ts';
import { office } from '../../../texts/set-up-office.ts';
import { RoomPage } from '../page.tsx';
import { Needed } from '../rows/numbers.tsx';
import { Secret } from '../rows/secret.tsx';
import css from '../set-up.module.css';
import { Granted } from './granted.tsx';

const texts = office.keys;
type Key = Schema<'ProgramKey'>;
type Scope = Key['scopes'][number];
const scopes = ['read', 'work', 'manage'] as const satisfies readonly Scope[];

/** Keys that programs come in with. */
export default function ProgramKeys() {
  const { id: yardId, timeZone } = useYard();
  const { data, problem, again } = useResource(`program keys ${yardId}`, (signal) =>
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/program-keys', {
          params: { path: { yardId }, query: pageAfter(after) },
          signal,
        }),
      ),
    ),
  );
  const when = (at: string): string => dayAndClock(at, timeZone);
  const stateOf = ({ state, expiresAt, revokedAt }: Key): string => {
    if (state === 'revoked' && revokedAt !== null) return texts.revoked(when(revokedAt));
    return state === 'expired' ? texts.expired(when(expiresAt)) : texts.until(when(expiresAt));
  };
  return (
    <RoomPage room="program-keys">
      <p class={css['soft']}>{texts.lead}</p>
      <Make onMade={again} />
      <Panel title={texts.list}>
        <ProblemNotice problem={problem} again={again} />
        {data === undefined && problem === undefined && <Busy />}
        {data?.length === 0 && <p>{texts.none}</p>}
        <ul class={css['plainList']}>
          {data?.map((key) => (
            <Granted
              key={key.id}
              title={key.name}
              lines={[
                texts.of(key.person, key.scopes),
                stateOf(key),
                key.lastUsedAt === null ? texts.neverUsed : texts.used(when(key.lastUsedAt)),
              ]}
              isOpen={key.state === 'open'}
              words={texts}
              revoke={() =>
                asked(
                  api.DELETE('/api/v1/yards/{yardId}/program-keys/{id}', {
                    params: { path: { yardId, id: key.id } },
                  }),
                )
              }
              onRevoked={again}
            />
          ))}
        </ul>
      </Panel>
    </RoomPage>
  );
}

const begin = { name: '', scopes: ['read'] as Scope[], days: 90, password: '' };

function Make({ onMade }: { readonly onMade: () => void }) {
  const { id: yardId } = useYard();
  const [made, setMade] = useState<Schema<'NewProgramKey'>>();
  const form = useForm(begin, async (body, headers) => {
    setMade(undefined);
    const key = await asked(
      api.POST('/api/v1/yards/{yardId}/program-keys', {
        params: { path: { yardId } },
        headers,
        body,
      }),
    );
    setMade(key);
    form.reset(begin);
    onMade();
  });
  const { values, set, faultAt } = form;
  return (
    <Panel title={texts.make}>
      <form onSubmit={form.submit}>
        <Stack>
          <TextField {...form.at('name')} label={texts.name} required maxLength={120} />
          <SeveralField
            label={texts.scopes}
            values={values.scopes}
            onValues={(chosen) =>
              set(
                'scopes',
                scopes.filter((scope) => chosen.includes(scope)),
              )
            }
            options={scopes.map((value) => ({ value, label: texts.scopesAbout[value] }))}
          />
          {faultAt('scopes') !== undefined && <p class={css['fault']}>{faultAt('scopes')}</p>}
          <div class={css['cols']}>
            <Needed {...form.at('days')} label={texts.days} min={1} max={366} step={1} />
            <TextField
              {...form.at('password')}
              type="password"
              autocomplete="current-password"
              label={texts.password}
              hint={texts.passwordHint}
              required
            />
          </div>
          <ProblemNotice problem={form.problem} />
          <div>
            <Button kind="do" type="submit" isBusy={form.isBusy}>
              {texts.make}
            </Button>
          </div>
        </Stack>
      </form>
      {made !== undefined && (
        <Notice tone="well" isNews>
          {made.token === null ? (
            <p>{texts.notShown}</p>
          ) : (
            <Secret label={texts.token} value={made.token} />
          )}
        </Notice>
      )}
    </Panel>
  );
}
