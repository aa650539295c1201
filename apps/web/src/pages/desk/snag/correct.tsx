import { problemOf } from '../../../api/problem.ts';
import { useResource } from '../../../api/resource.ts';
import { useState } from 'preact/hooks';
import { ChoiceField, QuantityField, TextField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Button, Dialog, Notice, ProblemNotice, Row, Stack } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';
import { desk as texts } from '../../../texts/desk.ts';
import { change, type Choices, choicesFor, type Snag } from './requests.ts';

interface Corrected {
  readonly kind: string;
  readonly words: string;
  readonly areaM2: number | null;
  /** Empty: the likeliest. */
  readonly taskId: string;
}

interface CorrectProps {
  readonly snag: Snag;
  readonly onChanged: (snag: Snag) => void;
  readonly again: () => void;
  readonly onClose: () => void;
}

/** What it is about can be corrected until a rework is ordered. */
export function Correct(props: CorrectProps) {
  const { id: yardId } = useYard();
  const { data, problem, again } = useResource(
    `snag choices ${yardId} ${props.snag.partId}`,
    (signal) => choicesFor(yardId, props.snag, signal),
  );
  return (
    <Dialog title={texts.snag.correct} onClose={props.onClose}>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data !== undefined && <Fields {...props} choices={data} />}
    </Dialog>
  );
}

function Fields({
  snag,
  choices,
  onChanged,
  again,
  onClose,
}: CorrectProps & { readonly choices: Choices }) {
  const { id: yardId } = useYard();
  const [isOvertaken, setOvertaken] = useState(false);
  const { kind, words, areaM2 } = snag;
  const form = useForm<Corrected>(
    { kind, words, areaM2, taskId: snag.taskId ?? '' },
    async (values) => {
      setOvertaken(false);
      try {
        const chosen = choices.kinds.find((one) => one.kind === values.kind)?.kind ?? kind;
        const { taskId, ...rest } = values;
        const sent = { ...rest, kind: chosen, taskId: taskId === '' ? null : taskId };
        onChanged(await change(yardId, snag, sent));
      } catch (error) {
        if (problemOf(error).status !== 412) throw error;
        setOvertaken(true);
        again();
      }
    },
  );
  return (
    <form onSubmit={form.submit}>
      <Stack>
        <ChoiceField
          label={texts.snag.kind}
          {...form.at('kind')}
          hint={choices.kinds.find((one) => one.kind === form.values.kind)?.shows}
          options={choices.kinds.map((one) => ({ value: one.kind, label: one.name }))}
        />
        <TextField
          label={texts.snag.words}
          {...form.at('words')}
          lines={3}
          required
          maxLength={2000}
        />
        <QuantityField kind="area" label={texts.snag.size} {...form.at('areaM2')} isOptional />
        <ChoiceField
          label={texts.snag.task}
          {...form.at('taskId')}
          options={[
            { value: '', label: texts.snag.likeliest },
            ...choices.tasks.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
        {isOvertaken && (
          <Notice tone="heed" isNews>
            <p>{common.changedMeanwhile}</p>
          </Notice>
        )}
        <ProblemNotice problem={form.problem} />
        <Row>
          <Button kind="do" type="submit" isBusy={form.isBusy}>
            {common.save}
          </Button>
          <Button onPress={onClose}>{common.cancel}</Button>
        </Row>
      </Stack>
    </form>
  );
}
