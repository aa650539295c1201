import { useState } from 'preact/hooks';
import { api, asked, ifMatch, type Schema } from '../../../api/client.ts';
import { everyPage, pageAfter, useResource } from '../../../api/resource.ts';
import { TextField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Notice, Panel, ProblemNotice, Row } from '../../../looks/looks.tsx';
import { membershipIn } from '../../../session/session.ts';
import { dayAndClock } from '../../../show/time.ts';
import { people } from '../../../texts/set-up-people.ts';
import { Asking } from '../record/removing.tsx';
import { Needed } from '../rows/numbers.tsx';
import { Secret } from '../rows/secret.tsx';
import css from '../set-up.module.css';
import type { Person } from './collection.ts';

const texts = people.access;

/** Whether somebody signs in as the person, and how they come to. */
export function Access({
  record: person,
  again,
}: {
  readonly record: Person;
  readonly again: () => void;
}) {
  const { id: yardId } = useYard();
  const [isEnding, setEnding] = useState(false);
  const isYou = membershipIn(yardId)?.memberId === person.id;
  const path = { yardId, id: person.id };
  return (
    <Panel title={texts.title}>
      {person.hasAccount ? (
        <>
          <p>
            {texts.has(person.name)} {isYou && texts.isYou}
          </p>
          {!isYou && (
            <div>
              <Button kind="harm" onPress={() => setEnding(true)}>
                {texts.end}
              </Button>
            </div>
          )}
        </>
      ) : (
        <Inviting person={person} />
      )}
      {isEnding && (
        <Asking
          title={texts.ending(person.name)}
          warning={texts.endWarning}
          doIt={texts.end}
          act={() =>
            asked(
              api.DELETE('/api/v1/yards/{yardId}/people/{id}/account', {
                params: { path, header: ifMatch(person.revision) },
              }),
            )
          }
          onDone={() => {
            setEnding(false);
            again();
          }}
          onClose={() => setEnding(false)}
        />
      )}
    </Panel>
  );
}

function Inviting({ person }: { readonly person: Person }) {
  const { id: yardId, timeZone } = useYard();
  const [made, setMade] = useState<Schema<'NewInvitation'>>();
  const invitations = useResource(
    `invitations ${yardId}`,
    (signal) =>
      everyPage((after) =>
        asked(
          api.GET('/api/v1/yards/{yardId}/invitations', {
            params: { path: { yardId }, query: pageAfter(after) },
            signal,
          }),
        ),
      ),
    { yardId, on: ({ subject, subjectId }) => subject === 'person' && subjectId === person.id },
  );
  const open = invitations.data?.find(
    ({ personId, state }) => personId === person.id && state === 'open',
  );
  const until = open === undefined ? '' : dayAndClock(open.expiresAt, timeZone);
  return (
    <>
      <ProblemNotice problem={invitations.problem} again={invitations.again} />
      {open === undefined && made === undefined && <p>{texts.none(person.name)}</p>}
      {open !== undefined && (
        <p>{open.email === null ? texts.open(until) : texts.openTo(open.email, until)}</p>
      )}
      {made !== undefined && <Made made={made} />}
      <Invite
        person={person}
        isAgain={open !== undefined}
        onMade={(invitation) => {
          setMade(invitation);
          invitations.again();
        }}
      />
      {open !== undefined && (
        <Revoke
          id={open.id}
          onRevoked={() => {
            setMade(undefined);
            invitations.again();
          }}
        />
      )}
    </>
  );
}

function Made({ made: { link, mailed, email } }: { readonly made: Schema<'NewInvitation'> }) {
  return (
    <Notice tone="well" isNews>
      {email !== null && <p>{mailed ? texts.mailed(email) : texts.notMailed(email)}</p>}
      {link === null ? <p>{texts.notShown}</p> : <Secret label={texts.link} value={link} />}
    </Notice>
  );
}

function Invite({
  person,
  isAgain,
  onMade,
}: {
  readonly person: Person;
  readonly isAgain: boolean;
  readonly onMade: (made: Schema<'NewInvitation'>) => void;
}) {
  const { id: yardId } = useYard();
  const form = useForm({ email: person.email ?? '', days: 7 }, async ({ email, days }, headers) => {
    const made = await asked(
      api.POST('/api/v1/yards/{yardId}/people/{id}/invitations', {
        params: { path: { yardId, id: person.id } },
        headers,
        body: { email: email.trim() === '' ? null : email.trim(), days },
      }),
    );
    onMade(made);
  });
  return (
    <form onSubmit={form.submit} class={css['rows']}>
      <p class={css['soft']}>{texts.inviteHint}</p>
      <div class={css['cols']}>
        <TextField {...form.at('email')} type="email" label={texts.to} isOptional maxLength={254} />
        <Needed {...form.at('days')} label={texts.days} min={1} max={30} step={1} />
      </div>
      <ProblemNotice problem={form.problem} />
      <Row>
        <Button type="submit" isBusy={form.isBusy}>
          {isAgain ? texts.inviteAgain : texts.invite}
        </Button>
      </Row>
    </form>
  );
}

function Revoke({ id, onRevoked }: { readonly id: string; readonly onRevoked: () => void }) {
  const { id: yardId } = useYard();
  const form = useForm({}, async () => {
    await asked(
      api.DELETE('/api/v1/yards/{yardId}/invitations/{id}', { params: { path: { yardId, id } } }),
    );
    onRevoked();
  });
  return (
    <form onSubmit={form.submit}>
      <ProblemNotice problem={form.problem} />
      <Button kind="harm" type="submit" isBusy={form.isBusy}>
        {texts.revoke}
      </Button>
    </form>
  );
}
