import { useState } from 'preact/hooks';
import { api, asked, once, type Schema } from '../../api/client.ts';
import { MomentField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { useYard } from '../../frame/yard.tsx';
import { Button, Notice, Panel, ProblemNotice } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { desk as texts } from '../../texts/desk.ts';
import { Detail } from './detail.tsx';
import { useWords } from './readings.ts';

type ReadyTask = Schema<'ReadyTask'>;

/** A hold point of which nothing but somebody's word is missing. */
export function WordPage({ id }: { readonly id: string }) {
  const { id: yardId } = useYard();
  const [isDone, setDone] = useState(false);
  const { data, ...read } = useWords(yardId);
  const found = data === undefined ? undefined : (data.find(({ taskId }) => taskId === id) ?? null);
  if (isDone && found === null) {
    return (
      <Detail<string> kind="word" title={String} read={{ ...read, data: texts.kinds.word }}>
        {() => <Notice tone="well" title={texts.word.done} isNews />}
      </Detail>
    );
  }
  return (
    <Detail<ReadyTask>
      kind="word"
      title={({ name, part, boat }) => texts.word.title(texts.work(name, part, boat))}
      read={{ ...read, data: found }}
    >
      {(task) => (
        <Came
          task={task}
          onDone={() => {
            setDone(true);
            read.again();
          }}
        />
      )}
    </Detail>
  );
}

function Came({ task, onDone }: { readonly task: ReadyTask; readonly onDone: () => void }) {
  const { id: yardId, timeZone: zone } = useYard();
  const form = useForm<{ readonly at: string | null }>(
    { at: new Date().toISOString() },
    async ({ at }) => {
      await sayCame(yardId, task, at ?? new Date().toISOString());
      onDone();
    },
  );
  const { neededBy, planned, warnings, cautions } = task;
  return (
    <Panel>
      <p>{texts.word.hint}</p>
      {neededBy !== null && <p>{texts.word.neededBy(dayAndClock(neededBy.at, zone))}</p>}
      {planned !== null && <p>{texts.word.expected(dayAndClock(planned.finish.at, zone))}</p>}
      {[...warnings, ...cautions.map(({ text }) => text)].map((words) => (
        <Notice key={words} tone="heed">
          <p>{words}</p>
        </Notice>
      ))}
      <form onSubmit={form.submit}>
        <MomentField label={texts.word.at} zone={zone} {...form.at('at')} />
        <ProblemNotice problem={form.problem} />
        <Button kind="do" type="submit" isBusy={form.isBusy}>
          {texts.word.came}
        </Button>
      </form>
    </Panel>
  );
}

/**
 * Taken, begun and over at one moment: that is how a word is kept. Where it was refused on the way,
 * the next attempt goes on from there.
 */
async function sayCame(yardId: string, { taskId, claim }: ReadyTask, at: string): Promise<void> {
  const times = () => ({ at, sentAt: new Date().toISOString() });
  const taken =
    claim ??
    (await asked(
      api.POST('/api/v1/yards/{yardId}/tasks/{taskId}/claims', {
        params: { path: { yardId, taskId } },
        headers: once(),
        body: times(),
      }),
    ));
  const params = { path: { yardId, id: taken.id } };
  if (taken.status === 'open') {
    await asked(api.POST('/api/v1/yards/{yardId}/claims/{id}/start', { params, body: times() }));
  }
  await asked(api.POST('/api/v1/yards/{yardId}/claims/{id}/finish', { params, body: times() }));
}
