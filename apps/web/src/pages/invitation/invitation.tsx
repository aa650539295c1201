import { signal } from '@preact/signals';
import { api, asked, type Schema } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { Door } from '../../door/door.tsx';
import { linkSecret } from '../../door/link-secret.ts';
import { SignInForm } from '../../door/sign-in-form.tsx';
import { useForm } from '../../form/form.ts';
import { Busy, Button, ButtonLink, Notice, Panel, ProblemNotice } from '../../looks/looks.tsx';
import { findOut, person, signOut } from '../../session/session.ts';
import { invitation as texts } from '../../texts/invitation.ts';
import { NewAccount } from './new-account.tsx';

type Joining = Schema<'Joining'>;

/** What came of which link. The page begins anew when somebody else is signed in: this stays. */
const outcome = signal<{ readonly token: string; readonly joined: Joining } | null>(null);

/** What the link of an invitation opens: come in with the account one has, or make one. */
export default function Invitation() {
  const token = linkSecret.value;
  const joined = outcome.value?.token === token ? outcome.value.joined : undefined;
  return (
    <Door title={texts.title}>
      {token === '' ? (
        <Notice tone="heed" title={texts.incomplete}>
          <p>{texts.incompleteCure}</p>
        </Notice>
      ) : joined !== undefined ? (
        <Notice tone="well" title={texts.inTitle} isNews>
          <p>{texts.in(joined.yard, joined.person)}</p>
          <div>
            <ButtonLink kind="do" to="/">
              {texts.go}
            </ButtonLink>
          </div>
        </Notice>
      ) : (
        <Opened
          token={token}
          onJoined={(now) => {
            outcome.value = { token, joined: now };
          }}
        />
      )}
    </Door>
  );
}

function Opened({
  token,
  onJoined,
}: {
  readonly token: string;
  readonly onJoined: (joined: Joining) => void;
}) {
  const preview = useResource(`invitation ${token}`, (signal) =>
    asked(api.POST('/api/v1/invitations/preview', { body: { token }, signal })),
  );
  if (preview.data === undefined) {
    return preview.problem === undefined ? (
      <Busy />
    ) : (
      <ProblemNotice problem={preview.problem} again={preview.again} />
    );
  }
  const { yard, person: invited, needsEmail } = preview.data;
  const me = person.value;
  return (
    <>
      <p>{texts.into(yard, invited)}</p>
      {me ? (
        <Join token={token} email={me.email} onJoined={onJoined} />
      ) : (
        <>
          <Panel title={texts.new}>
            <NewAccount token={token} name={invited} needsEmail={needsEmail} onJoined={onJoined} />
          </Panel>
          <Panel title={texts.known}>
            <p>{texts.knownHint}</p>
            <SignInForm onSignedIn={() => undefined} />
          </Panel>
        </>
      )}
    </>
  );
}

function Join({
  token,
  email,
  onJoined,
}: {
  readonly token: string;
  readonly email: string;
  readonly onJoined: (joined: Joining) => void;
}) {
  const join = useForm({}, async () => {
    const joined = await asked(api.POST('/api/v1/invitations/accept', { body: { token } }));
    await findOut();
    onJoined(joined);
  });
  const change = useForm({}, signOut);
  return (
    <Panel>
      <p>{texts.signedInAs(email)}</p>
      <ProblemNotice problem={join.problem ?? change.problem} />
      <Button kind="do" isBusy={join.isBusy} onPress={join.submit}>
        {texts.join}
      </Button>
      <Button isBusy={change.isBusy} onPress={change.submit}>
        {texts.other}
      </Button>
    </Panel>
  );
}
