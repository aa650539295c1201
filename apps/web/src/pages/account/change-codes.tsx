import { api, asked, type Schema } from '../../api/client.ts';
import { PasswordField } from '../../door/password-field.tsx';
import { TextField } from '../../form/fields.tsx';
import { type Form, useForm } from '../../form/form.ts';
import { Button, ProblemNotice, Row, Stack } from '../../looks/looks.tsx';
import { account as texts } from '../../texts/account.ts';
import { common } from '../../texts/common.ts';

type Proof = Schema<'FactorChangeInput'>;
const empty: Proof = { password: '', code: '' };

interface Ending {
  readonly onEnd: (codes?: readonly string[]) => void;
}

export function NewCodes({ onEnd }: Ending) {
  const form = useForm(empty, async (body) => {
    const { recoveryCodes } = await asked(
      api.POST('/api/v1/second-factor/recovery-codes', { body }),
    );
    onEnd(recoveryCodes);
  });
  return (
    <>
      <p>{texts.newCodesHint}</p>
      <ProofForm form={form} words={texts.newCodes} onCancel={() => onEnd()} />
    </>
  );
}

export function SwitchCodesOff({ onEnd }: Ending) {
  const form = useForm(empty, async (body) => {
    await asked(api.DELETE('/api/v1/second-factor/totp', { body }));
    onEnd();
  });
  return <ProofForm form={form} words={texts.switchCodesOff} onCancel={() => onEnd()} />;
}

/** Password and code once more, as every change of the factor costs. */
function ProofForm({
  form,
  words,
  onCancel,
}: {
  readonly form: Form<Proof>;
  readonly words: string;
  readonly onCancel: () => void;
}) {
  return (
    <form onSubmit={form.submit}>
      <Stack>
        <PasswordField {...form.at('password')} label={texts.yourPassword} />
        <TextField
          {...form.at('code')}
          label={texts.code}
          hint={texts.codeHint}
          autocomplete="one-time-code"
          required
        />
        <ProblemNotice problem={form.problem} />
        <Row>
          <Button type="submit" isBusy={form.isBusy}>
            {words}
          </Button>
          <Button kind="quiet" onPress={onCancel}>
            {common.cancel}
          </Button>
        </Row>
      </Stack>
    </form>
  );
}
