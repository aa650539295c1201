import { useEffect, useRef, useState } from 'preact/hooks';
import { type Problem, problemOf } from '../api/problem.ts';
import { TextField } from '../form/fields.tsx';
import { useForm } from '../form/form.ts';
import { Button, Notice, ProblemNotice, Stack } from '../looks/looks.tsx';
import { showCode, signIn, signInByPasskey } from '../session/sign-in.ts';
import { door as texts } from '../texts/door.ts';
import css from './door.module.css';
import { PasswordField } from './password-field.tsx';

/** By passkey, or by e-mail and password with a code where the account asks for one. */
export function SignInForm({ onSignedIn }: { readonly onSignedIn: () => void }) {
  const [pending, setPending] = useState<string | null>(null);
  if (pending !== null)
    return <CodeForm pending={pending} onSignedIn={onSignedIn} onBack={() => setPending(null)} />;
  return (
    <Stack>
      {'PublicKeyCredential' in globalThis && <ByPasskey onSignedIn={onSignedIn} />}
      <ByPassword
        onPending={(now) => {
          if (now === null) onSignedIn();
          else setPending(now);
        }}
      />
      <p>
        <a href="/password">{texts.forgotten}</a>
      </p>
    </Stack>
  );
}

function ByPasskey({ onSignedIn }: { readonly onSignedIn: () => void }) {
  const [problem, setProblem] = useState<Problem>();
  const [isBusy, setBusy] = useState(false);
  const ask = (): void => {
    setBusy(true);
    setProblem(undefined);
    signInByPasskey().then(onSignedIn, (error: unknown) => {
      setBusy(false);
      setProblem(problemOf(error));
    });
  };
  return (
    <Stack>
      <Button wide isBusy={isBusy} onPress={ask}>
        {texts.byPasskey}
      </Button>
      <ProblemNotice problem={problem} />
      <p class={css['or']}>{texts.orPassword}</p>
    </Stack>
  );
}

function ByPassword({ onPending }: { readonly onPending: (pending: string | null) => void }) {
  const form = useForm({ email: '', password: '' }, async ({ email, password }) => {
    onPending(await signIn(email.trim(), password));
  });
  return (
    <form class={css['form']} onSubmit={form.submit}>
      <TextField
        {...form.at('email')}
        label={texts.email}
        type="email"
        autocomplete="username"
        required
      />
      <PasswordField {...form.at('password')} />
      <ProblemNotice problem={form.problem} />
      <Button kind="do" wide type="submit" isBusy={form.isBusy}>
        {texts.signIn}
      </Button>
    </form>
  );
}

function CodeForm({
  pending,
  onSignedIn,
  onBack,
}: {
  readonly pending: string;
  readonly onSignedIn: () => void;
  readonly onBack: () => void;
}) {
  const box = useRef<HTMLFormElement>(null);
  useEffect(() => box.current?.querySelector('input')?.focus(), []);
  const form = useForm({ code: '' }, async ({ code }) => {
    await showCode(pending, code);
    onSignedIn();
  });
  return (
    <form class={css['form']} ref={box} onSubmit={form.submit}>
      <h2>{texts.codeTitle}</h2>
      <Notice isNews>
        <p>{texts.codeAsked}</p>
      </Notice>
      <TextField
        {...form.at('code')}
        label={texts.code}
        hint={texts.codeHint}
        autocomplete="one-time-code"
        required
      />
      <ProblemNotice problem={form.problem} />
      <Button kind="do" wide type="submit" isBusy={form.isBusy}>
        {texts.codeSend}
      </Button>
      <Button kind="quiet" onPress={onBack}>
        {texts.otherWay}
      </Button>
    </form>
  );
}
