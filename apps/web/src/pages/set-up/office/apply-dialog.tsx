import { api, asked, type Schema } from '../../../api/client.ts';
import { CheckField } from '../../../form/fields.tsx';
import { useForm } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Dialog, Notice, ProblemNotice, Row, Stack } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';
import { office } from '../../../texts/set-up-office.ts';
import { Needed } from '../rows/numbers.tsx';

const texts = office.productivity;

/** What was found of a step, of somebody at a skill, or of a space. */
export interface Proposal {
  readonly key: string;
  readonly what: string;
  readonly factor: number;
  readonly low: number;
  readonly high: number;
  readonly tasks: number;
  readonly advised: boolean;
  readonly revision: number;
  /** Percent that is planned with, and that would be. */
  readonly now?: number;
  readonly then?: number;
  readonly change: Schema<'ProductivityInput'>['change'];
}

/** Plans with what was found, or with another number, once somebody says so. */
export function ApplyDialog({
  proposal,
  onClose,
  onApplied,
}: {
  readonly proposal: Proposal;
  readonly onClose: () => void;
  readonly onApplied: (words: string) => void;
}) {
  const { id: yardId } = useYard();
  const { change, revision, what } = proposal;
  const begin = { factor: Math.round(proposal.factor * 100) / 100, alsoWaiting: true };
  const form = useForm(begin, async ({ factor, alsoWaiting }, headers) => {
    const { words } = await asked(
      api.POST('/api/v1/yards/{yardId}/productivity/apply', {
        params: { path: { yardId } },
        headers,
        body: { change, revision, factor, alsoWaiting },
      }),
    );
    onApplied(words);
  });
  return (
    <Dialog title={texts.applyThis(what)} onClose={onClose}>
      <form onSubmit={form.submit}>
        <Stack>
          <p>{texts.between(String(proposal.low), String(proposal.high))}</p>
          <Needed {...form.at('factor')} label={texts.factor} min={0.25} max={4} />
          {change.kind === 'step' && (
            <CheckField
              label={texts.waiting}
              value={form.values.alsoWaiting}
              onValue={(isOn) => form.set('alsoWaiting', isOn)}
            />
          )}
          {form.problem?.status === 412 ? (
            <Notice tone="heed" isNews>
              {common.changedMeanwhile}
            </Notice>
          ) : (
            <ProblemNotice problem={form.problem} />
          )}
          <Row>
            <Button kind="do" type="submit" isBusy={form.isBusy}>
              {texts.apply}
            </Button>
            <Button onPress={onClose}>{common.cancel}</Button>
          </Row>
        </Stack>
      </form>
    </Dialog>
  );
}
