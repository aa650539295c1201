import { useState } from 'preact/hooks';
import { api, asked } from '../../api/client.ts';
import { PasswordField } from '../../door/password-field.tsx';
import { useForm } from '../../form/form.ts';
import { Button, Notice, Panel, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { findOut } from '../../session/session.ts';
import { account as texts } from '../../texts/account.ts';

const empty = { oldPassword: '', password: '' };

export function Password() {
  const [isSet, setSet] = useState(false);
  const form = useForm(empty, async (body) => {
    setSet(false);
    await asked(api.PUT('/api/v1/me/password', { body }));
    // The session goes on under another secret, and its proof with it.
    await findOut();
    form.reset(empty);
    setSet(true);
  });
  return (
    <Panel title={texts.password}>
      <form onSubmit={form.submit}>
        <Stack>
          <PasswordField {...form.at('oldPassword')} label={texts.oldPassword} />
          <PasswordField {...form.at('password')} isNew />
          <ProblemNotice problem={form.problem} />
          {isSet && (
            <Notice tone="well" isNews>
              <p>{texts.passwordSet}</p>
            </Notice>
          )}
          <div>
            <Button type="submit" isBusy={form.isBusy}>
              {texts.setPassword}
            </Button>
          </div>
        </Stack>
      </form>
    </Panel>
  );
}
