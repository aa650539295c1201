import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../api/client.ts';
import { PasswordField } from '../../door/password-field.tsx';
import { TextField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { Button, ProblemNotice, Row, Stack } from '../../looks/looks.tsx';
import { findOut } from '../../session/session.ts';
import { clock } from '../../show/time.ts';
import { account as texts } from '../../texts/account.ts';
import { common } from '../../texts/common.ts';
import css from './account.module.css';
import { QrCode } from './qr-code.tsx';

interface Ending {
  /** With the recovery codes where codes were switched on. */
  readonly onEnd: (codes?: readonly string[]) => void;
}

/** Password, then the secret, then its first code: only then are codes asked for. */
export function SetUpCodes({ zone, onEnd }: Ending & { readonly zone: string }) {
  const [begun, setBegun] = useState<Schema<'TotpSetUp'>>();
  const form = useForm({ password: '' }, async (body) => {
    setBegun(await asked(api.POST('/api/v1/second-factor/totp', { body })));
  });
  if (begun !== undefined) return <FirstCode begun={begun} zone={zone} onEnd={onEnd} />;
  return (
    <form onSubmit={form.submit}>
      <Stack>
        <p>{texts.yourPasswordHint}</p>
        <PasswordField {...form.at('password')} label={texts.yourPassword} />
        <ProblemNotice problem={form.problem} />
        <Row>
          <Button kind="do" type="submit" isBusy={form.isBusy}>
            {texts.next}
          </Button>
          <Button kind="quiet" onPress={() => onEnd()}>
            {common.cancel}
          </Button>
        </Row>
      </Stack>
    </form>
  );
}

function FirstCode({
  begun,
  zone,
  onEnd,
}: Ending & { readonly begun: Schema<'TotpSetUp'>; readonly zone: string }) {
  const form = useForm({ code: '' }, async (body) => {
    const { recoveryCodes } = await asked(api.POST('/api/v1/second-factor/totp/confirm', { body }));
    onEnd(recoveryCodes);
    // The session goes on under another secret.
    await findOut();
  });
  return (
    <form onSubmit={form.submit}>
      <Stack>
        <p>{texts.scan}</p>
        <QrCode text={begun.uri} label={texts.scanPicture} />
        <p>
          {texts.secret}: <span class={css['secret']}>{begun.secret}</span>
        </p>
        <TextField
          {...form.at('code')}
          label={texts.firstCode}
          hint={texts.confirmBefore(clock(begun.confirmBefore, zone))}
          autocomplete="one-time-code"
          required
        />
        <ProblemNotice problem={form.problem} />
        <Row>
          <Button kind="do" type="submit" isBusy={form.isBusy}>
            {texts.confirm}
          </Button>
          <Button kind="quiet" onPress={() => onEnd()}>
            {common.cancel}
          </Button>
        </Row>
      </Stack>
    </form>
  );
}
