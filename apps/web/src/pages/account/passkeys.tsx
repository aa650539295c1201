import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../api/client.ts';
import { type Resource, useResource } from '../../api/resource.ts';
import { PasswordField } from '../../door/password-field.tsx';
import { TextField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { Button, Dialog, Panel, ProblemNotice, Row, Stack } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { account as texts } from '../../texts/account.ts';
import { common } from '../../texts/common.ts';
import css from './account.module.css';
import { mustShow } from './factor.ts';
import { RemoveButton } from './remove-button.tsx';

type Passkey = Schema<'Passkey'>;

export function Passkeys({
  factor,
  zone,
}: {
  readonly factor: Resource<Schema<'SecondFactor'>>;
  readonly zone: string;
}) {
  const [isAdding, setAdding] = useState(false);
  const [renamed, setRenamed] = useState<Passkey>();
  const list = useResource('passkeys', (signal) => asked(api.GET('/api/v1/passkeys', { signal })));
  const again = (): void => {
    list.again();
    factor.again();
  };
  const has = 'PublicKeyCredential' in globalThis;
  const isShut = factor.data === undefined || mustShow(factor.data);
  return (
    <Panel title={texts.passkeys}>
      <p>{has ? texts.passkeysWhat : texts.passkeysMissing}</p>
      <ProblemNotice problem={list.problem} again={list.again} />
      {list.data?.items.length === 0 && <p>{texts.noPasskeys}</p>}
      <ul class={css['list']}>
        {list.data?.items.map((one) => (
          <li key={one.id}>
            <span>{one.name}</span>
            <span class={css['small']}>
              {texts.made(dayAndClock(one.createdAt, zone))},{' '}
              {one.lastUsedAt === null
                ? texts.neverUsed
                : texts.used(dayAndClock(one.lastUsedAt, zone))}
            </span>
            <Row>
              <Button label={texts.renamePasskey(one.name)} onPress={() => setRenamed(one)}>
                {texts.rename}
              </Button>
              <RemoveButton
                label={texts.removePasskey(one.name)}
                remove={async () => {
                  const params = { path: { id: one.id } };
                  await asked(api.DELETE('/api/v1/passkeys/{id}', { params }));
                  again();
                }}
              />
            </Row>
          </li>
        ))}
      </ul>
      {has && !isAdding && (
        <div>
          <Button disabled={isShut} onPress={() => setAdding(true)}>
            {texts.addPasskey}
          </Button>
        </div>
      )}
      {isAdding && (
        <AddPasskey
          onEnd={() => {
            setAdding(false);
            again();
          }}
        />
      )}
      {renamed !== undefined && (
        <RenamePasskey
          of={renamed}
          onEnd={() => {
            setRenamed(undefined);
            list.again();
          }}
        />
      )}
    </Panel>
  );
}

function AddPasskey({ onEnd }: { readonly onEnd: () => void }) {
  const form = useForm<{ name: string; password: string }>(
    { name: texts.passkeyNameStart, password: '' },
    async (values) => {
      const { name, password } = values;
      const { makePasskey } = await import('../../session/passkey.ts');
      const { challengeId, options } = await asked(
        api.POST('/api/v1/passkeys/options', { body: { password } }),
      );
      const credential = await makePasskey(options);
      await asked(api.POST('/api/v1/passkeys', { body: { challengeId, name, credential } }));
      onEnd();
    },
  );
  return (
    <form onSubmit={form.submit}>
      <Stack>
        <TextField {...form.at('name')} label={texts.passkeyName} maxLength={120} required />
        <PasswordField {...form.at('password')} label={texts.yourPassword} />
        <ProblemNotice problem={form.problem} />
        <Row>
          <Button type="submit" isBusy={form.isBusy}>
            {texts.make}
          </Button>
          <Button kind="quiet" onPress={onEnd}>
            {common.cancel}
          </Button>
        </Row>
      </Stack>
    </form>
  );
}

function RenamePasskey({ of, onEnd }: { readonly of: Passkey; readonly onEnd: () => void }) {
  const form = useForm({ name: of.name }, async (body) => {
    const params = { path: { id: of.id } };
    await asked(api.PATCH('/api/v1/passkeys/{id}', { params, body }));
    onEnd();
  });
  return (
    <Dialog title={texts.renamePasskey(of.name)} onClose={onEnd}>
      <form onSubmit={form.submit}>
        <Stack>
          <TextField {...form.at('name')} label={texts.passkeyName} maxLength={120} required />
          <ProblemNotice problem={form.problem} />
          <div>
            <Button kind="do" type="submit" isBusy={form.isBusy}>
              {common.save}
            </Button>
          </div>
        </Stack>
      </form>
    </Dialog>
  );
}
