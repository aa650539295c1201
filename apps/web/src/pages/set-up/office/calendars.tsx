import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { everyPage, pageAfter, useResource } from '../../../api/resource.ts';
import { ChoiceField, TextField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Notice, Panel, ProblemNotice, Stack } from '../../../looks/looks.tsx';
import { dayAndClock } from '../../../show/time.ts';
import { office } from '../../../texts/set-up-office.ts';
import { optionsOf, useList } from '../lists/lists.ts';
import { RoomPage } from '../page.tsx';
import { Secret } from '../rows/secret.tsx';
import css from '../set-up.module.css';
import { Granted } from './granted.tsx';

const texts = office.calendars;
type Calendar = Schema<'Calendar'>;
const kinds = ['builder', 'owner', 'space'] as const;

/** Addresses of calendars of the yard. */
export default function Calendars() {
  const { id: yardId, timeZone } = useYard();
  const { data, problem, again } = useResource(`calendars ${yardId}`, (signal) =>
    everyPage((after) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/calendars', {
          params: { path: { yardId }, query: pageAfter(after) },
          signal,
        }),
      ),
    ),
  );
  const when = (at: string): string => dayAndClock(at, timeZone);
  const wordsOf = ({ revokedAt, lastReadAt }: Calendar): string => {
    if (revokedAt !== null) return texts.revoked(when(revokedAt));
    return lastReadAt === null ? texts.neverRead : texts.lastRead(when(lastReadAt));
  };
  return (
    <RoomPage room="calendars">
      <p class={css['soft']}>{texts.lead}</p>
      <Make onMade={again} />
      <Panel title={texts.list}>
        <ProblemNotice problem={problem} again={again} />
        {data === undefined && problem === undefined && <Busy />}
        {data?.length === 0 && <p>{texts.none}</p>}
        <ul class={css['plainList']}>
          {data?.map((calendar) => (
            <Granted
              key={calendar.id}
              title={calendar.name}
              lines={[texts.of(calendar.person, texts.kinds[calendar.kind]), wordsOf(calendar)]}
              isOpen={calendar.state === 'open'}
              words={texts}
              revoke={() =>
                asked(
                  api.DELETE('/api/v1/yards/{yardId}/calendars/{id}', {
                    params: { path: { yardId, id: calendar.id } },
                  }),
                )
              }
              onRevoked={again}
            />
          ))}
        </ul>
      </Panel>
    </RoomPage>
  );
}

const begin: {
  readonly kind: (typeof kinds)[number];
  readonly spaceId: string;
  readonly personId: string;
  readonly name: string;
} = { kind: 'builder', spaceId: '', personId: '', name: '' };

function Make({ onMade }: { readonly onMade: () => void }) {
  const { id: yardId } = useYard();
  const spaces = useList('spaces');
  const people = useList('people');
  const [made, setMade] = useState<Schema<'NewCalendar'>>();
  const form = useForm(begin, async ({ kind, spaceId, personId, name }, headers) => {
    setMade(undefined);
    const calendar = await asked(
      api.POST('/api/v1/yards/{yardId}/calendars', {
        params: { path: { yardId } },
        headers,
        body: {
          kind,
          spaceId:
            kind === 'space' ? (spaceId === '' ? (spaces.data?.[0]?.id ?? null) : spaceId) : null,
          personId: personId === '' ? null : personId,
          name: name.trim() === '' ? null : name,
        },
      }),
    );
    setMade(calendar);
    form.reset({ ...begin, kind });
    onMade();
  });
  const { values, set } = form;
  const role = values.kind === 'owner' ? 'owner' : 'builder';
  const those = people.data?.filter(({ roles }) => values.kind === 'space' || roles.includes(role));
  return (
    <Panel title={texts.make}>
      <form onSubmit={form.submit}>
        <Stack>
          <div class={css['cols']}>
            <ChoiceField
              label={texts.kind}
              value={values.kind}
              onValue={(chosen) => {
                const kind = kinds.find((one) => one === chosen);
                if (kind !== undefined) set('kind', kind);
                set('personId', '');
              }}
              options={kinds.map((value) => ({ value, label: texts.kinds[value] }))}
            />
            {values.kind === 'space' && (
              <ChoiceField
                {...form.at('spaceId')}
                label={texts.space}
                options={optionsOf(spaces.data)}
              />
            )}
            <ChoiceField
              {...form.at('personId')}
              label={texts.person}
              options={[{ value: '', label: texts.yourself }, ...optionsOf(those)]}
            />
            <TextField
              {...form.at('name')}
              label={texts.name}
              hint={texts.nameHint}
              isOptional
              maxLength={120}
            />
          </div>
          <ProblemNotice problem={form.problem} />
          <div>
            <Button kind="do" type="submit" isBusy={form.isBusy}>
              {texts.make}
            </Button>
          </div>
        </Stack>
      </form>
      {made !== undefined && (
        <Notice tone="well" isNews>
          {made.url === null ? (
            <p>{texts.notShown}</p>
          ) : (
            <Secret label={texts.url} value={made.url} />
          )}
        </Notice>
      )}
    </Panel>
  );
}
