import { useLocation } from 'preact-iso/router';
import { useId, useState } from 'preact/hooks';
import { problemOf } from '../../api/problem.ts';
import { TextField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import looks from '../../looks/looks.module.css';
import { Button, Panel, ProblemNotice } from '../../looks/looks.tsx';
import { begin as texts } from '../../texts/begin.ts';
import css from './begin.module.css';
import { makeYard } from './make-yard.ts';
import { readYardFile, summaryOf } from './read-yard-file.ts';

/** A yard as a file has it. Faults are told with where they are; nothing is half-made. */
export function FromFile() {
  const { route } = useLocation();
  const [isTaken, setTaken] = useState(false);
  const form = useForm({ text: '', id: '' }, async ({ text, id }) => {
    const file = readYardFile(text);
    try {
      const yardId = await makeYard(id === '' ? file : { ...file, id });
      route(`/yards/${yardId}/set-up`, true);
    } catch (error) {
      if (problemOf(error).code === 'record.exists') {
        setTaken(true);
        if (id === '') form.set('id', file.id);
      }
      throw error;
    }
  });
  const summary = summaryOf(form.values.text);
  return (
    <form class={css['form']} onSubmit={form.submit}>
      <Panel>
        <ChooseFile onText={(text) => form.set('text', text)} />
        <TextField {...form.at('text')} label={texts.paste} lines={10} />
        {summary !== null && (
          <p role="status">{texts.holds(summary.name, summary.people, summary.boats)}</p>
        )}
        {isTaken && (
          <TextField
            {...form.at('id')}
            label={texts.otherId}
            hint={texts.otherIdHint}
            maxLength={120}
            required
          />
        )}
      </Panel>
      <ProblemNotice problem={form.problem} />
      <div>
        <Button kind="do" type="submit" isBusy={form.isBusy}>
          {texts.takeIn}
        </Button>
      </div>
    </form>
  );
}

function ChooseFile({ onText }: { readonly onText: (text: string) => void }) {
  const id = useId();
  const [isUnreadable, setUnreadable] = useState(false);
  return (
    <div class={looks['field']}>
      <label class={looks['label']} for={id}>
        {texts.choose}
      </label>
      <input
        id={id}
        class={looks['input']}
        type="file"
        accept=".json,application/json"
        aria-invalid={isUnreadable}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          if (file === undefined) return;
          setUnreadable(false);
          file.text().then(onText, () => setUnreadable(true));
        }}
      />
      {isUnreadable && (
        <span class={looks['fault']} role="alert">
          {texts.unreadable}
        </span>
      )}
    </div>
  );
}
