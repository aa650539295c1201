import { signal } from '@preact/signals';
import { useState } from 'preact/hooks';
import { api, asked } from '../../api/client.ts';
import { Door } from '../../door/door.tsx';
import { linkSecret } from '../../door/link-secret.ts';
import { PasswordField } from '../../door/password-field.tsx';
import { TextField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { Button, ButtonLink, Notice, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { leave, person } from '../../session/session.ts';
import { password as texts } from '../../texts/password.ts';

/** The link that was used. The page begins anew when nobody is signed in any more: this stays. */
const used = signal('');

/** What the link of a mail opens: choose a password, or have such a link sent. */
export default function Password() {
  const secret = linkSecret.value;
  return (
    <Door title={texts.title}>
      {secret === '' ? <AskForLink /> : <Choose key={secret} token={secret} />}
    </Door>
  );
}

function AskForLink() {
  const [isSent, setSent] = useState(false);
  const form = useForm({ email: person.value?.email ?? '' }, async ({ email }) => {
    await asked(api.POST('/api/v1/password-resets', { body: { email: email.trim() } }));
    setSent(true);
  });
  if (isSent) {
    return (
      <Stack>
        <Notice tone="well" title={texts.sentTitle} isNews>
          <p>{texts.sent}</p>
        </Notice>
        <Button onPress={() => setSent(false)}>{texts.askAgain}</Button>
      </Stack>
    );
  }
  return (
    <form onSubmit={form.submit}>
      <Stack>
        <p>{texts.ask}</p>
        <TextField
          {...form.at('email')}
          label={texts.email}
          type="email"
          autocomplete="username"
          required
        />
        <ProblemNotice problem={form.problem} />
        <Button kind="do" wide type="submit" isBusy={form.isBusy}>
          {texts.send}
        </Button>
      </Stack>
    </form>
  );
}

function Choose({ token }: { readonly token: string }) {
  const form = useForm({ password: '' }, async ({ password }) => {
    await asked(api.POST('/api/v1/password-resets/complete', { body: { token, password } }));
    used.value = token;
    // The sessions of the account are over; whether it is the one shown here is not told.
    if (person.peek()) await leave();
  });
  if (used.value === token) {
    return (
      <Notice tone="well" title={texts.doneTitle} isNews>
        <p>{texts.done}</p>
        <div>
          <ButtonLink kind="do" to="/sign-in">
            {texts.toSignIn}
          </ButtonLink>
        </div>
      </Notice>
    );
  }
  return (
    <form onSubmit={form.submit}>
      <Stack>
        <p>{texts.choose}</p>
        <PasswordField {...form.at('password')} isNew />
        <ProblemNotice problem={form.problem} />
        {form.problem?.code === 'access.link' && (
          <Button
            onPress={() => {
              linkSecret.value = '';
            }}
          >
            {texts.askAgain}
          </Button>
        )}
        <Button kind="do" wide type="submit" isBusy={form.isBusy}>
          {texts.set}
        </Button>
      </Stack>
    </form>
  );
}
