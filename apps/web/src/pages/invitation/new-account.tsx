import { api, asked, type Schema } from '../../api/client.ts';
import { PasswordField } from '../../door/password-field.tsx';
import { TextField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { Button, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { enter } from '../../session/session.ts';
import { invitation as texts } from '../../texts/invitation.ts';

/** An account made for the invitation; it comes in at once. */
export function NewAccount({
  token,
  name,
  needsEmail,
  onJoined,
}: {
  readonly token: string;
  readonly name: string;
  /** The link was handed over, not mailed: nobody knows the address yet. */
  readonly needsEmail: boolean;
  readonly onJoined: (joined: Schema<'Joining'>) => void;
}) {
  const form = useForm({ email: '', name, password: '' }, async (values) => {
    const { email, ...account } = values;
    const body = { token, ...account, ...(needsEmail ? { email: email.trim() } : {}) };
    const joined = await asked(api.POST('/api/v1/invitations/accept', { body }));
    onJoined(joined);
    await enter();
  });
  return (
    <form onSubmit={form.submit}>
      <Stack>
        {needsEmail && (
          <TextField
            {...form.at('email')}
            label={texts.email}
            type="email"
            autocomplete="username"
            required
          />
        )}
        <TextField
          {...form.at('name')}
          label={texts.name}
          autocomplete="name"
          maxLength={120}
          required
        />
        <PasswordField {...form.at('password')} label={texts.password} isNew />
        <ProblemNotice problem={form.problem} />
        <Button kind="do" wide type="submit" isBusy={form.isBusy}>
          {texts.make}
        </Button>
      </Stack>
    </form>
  );
}
