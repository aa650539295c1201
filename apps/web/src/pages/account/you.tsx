import { useEffect, useState } from 'preact/hooks';
import { api, asked, ifMatch } from '../../api/client.ts';
import { problemOf } from '../../api/problem.ts';
import { ChoiceField, TextField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { Button, Notice, Panel, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { unsent } from '../../offline/queue.ts';
import { findOut, type Person, signOut } from '../../session/session.ts';
import { account as texts } from '../../texts/account.ts';
import { common } from '../../texts/common.ts';

const units = [
  { value: 'metric', label: texts.metric },
  { value: 'imperial', label: texts.imperial },
] as const;
const scales = [
  { value: 'celsius', label: texts.celsius },
  { value: 'fahrenheit', label: texts.fahrenheit },
] as const;

/** Name, units, and the way out. */
export function You({ me }: { readonly me: Person }) {
  const { name, units: mine, temperature } = me;
  const [said, setSaid] = useState<'saved' | 'changed'>();
  const form = useForm({ name, units: mine, temperature }, async (body) => {
    setSaid(undefined);
    try {
      const params = { header: ifMatch(me.revision) };
      await asked(api.PATCH('/api/v1/me', { params, body }));
      await findOut();
      setSaid('saved');
    } catch (error) {
      if (problemOf(error).code !== 'record.stale') throw error;
      await findOut();
      setSaid('changed');
    }
  });
  // What was changed elsewhere is shown; what is typed here is not.
  useEffect(() => form.reset({ name, units: mine, temperature }), [me.revision]);
  return (
    <Panel title={texts.you}>
      <form onSubmit={form.submit}>
        <Stack>
          <TextField {...form.at('name')} label={texts.name} autocomplete="name" required />
          <p>
            {texts.email}: {me.email}
          </p>
          <ChoiceField
            label={texts.units}
            value={form.values.units}
            onValue={(value) => form.set('units', value === 'imperial' ? 'imperial' : 'metric')}
            options={units}
          />
          <ChoiceField
            label={texts.temperature}
            value={form.values.temperature}
            onValue={(value) =>
              form.set('temperature', value === 'fahrenheit' ? 'fahrenheit' : 'celsius')
            }
            options={scales}
          />
          <ProblemNotice problem={form.problem} />
          {said !== undefined && (
            <Notice tone={said === 'saved' ? 'well' : 'heed'} isNews>
              <p>{said === 'saved' ? common.saved : common.changedMeanwhile}</p>
            </Notice>
          )}
          <div>
            <Button kind="do" type="submit" isBusy={form.isBusy} disabled={!form.isChanged}>
              {common.save}
            </Button>
          </div>
        </Stack>
      </form>
      <Out />
    </Panel>
  );
}

function Out() {
  const out = useForm({}, signOut);
  const waiting = unsent.value.length;
  return (
    <Stack>
      <p>{texts.signOutHint}</p>
      {waiting > 0 && (
        <Notice tone="heed">
          <p>{texts.unsent(waiting)}</p>
        </Notice>
      )}
      <ProblemNotice problem={out.problem} />
      <div>
        <Button isBusy={out.isBusy} onPress={out.submit}>
          {common.signOut}
        </Button>
      </div>
    </Stack>
  );
}
