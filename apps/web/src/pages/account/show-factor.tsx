import { api, asked, type Schema } from '../../api/client.ts';
import { TextField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { Button, Notice, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { findOut } from '../../session/session.ts';
import { signInByPasskey } from '../../session/sign-in.ts';
import { account as texts } from '../../texts/account.ts';

/** Shows the factor that the account has, in the session that goes on. */
export function ShowFactor({
  factor,
  onShown,
}: {
  readonly factor: Schema<'SecondFactor'>;
  readonly onShown: () => void;
}) {
  const byCode = useForm({ code: '' }, async (body) => {
    await asked(api.POST('/api/v1/sessions/current/second-factor', { body }));
    await findOut();
    onShown();
  });
  const byPasskey = useForm({}, async () => {
    await signInByPasskey();
    onShown();
  });
  return (
    <Notice tone="heed">
      <p>{texts.showFirst}</p>
      {factor.totpSince !== null && (
        <form onSubmit={byCode.submit}>
          <Stack>
            <TextField
              {...byCode.at('code')}
              label={texts.code}
              hint={texts.codeHint}
              autocomplete="one-time-code"
              required
            />
            <ProblemNotice problem={byCode.problem} />
            <div>
              <Button type="submit" isBusy={byCode.isBusy}>
                {texts.showIt}
              </Button>
            </div>
          </Stack>
        </form>
      )}
      {factor.passkeys > 0 && (
        <Stack>
          <ProblemNotice problem={byPasskey.problem} />
          <div>
            <Button isBusy={byPasskey.isBusy} onPress={byPasskey.submit}>
              {texts.showByPasskey}
            </Button>
          </div>
        </Stack>
      )}
    </Notice>
  );
}
