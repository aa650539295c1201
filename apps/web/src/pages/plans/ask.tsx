import { useLocation } from 'preact-iso/router';
import { api, asked } from '../../api/client.ts';
import { MomentField, NumberField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { useYard } from '../../frame/yard.tsx';
import { Button, Panel, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { usePlanAgain } from '../../placing/plan-again.tsx';
import { plans as texts } from '../../texts/plans.ts';
import css from './plans.module.css';

/** Long enough for a small yard to be planned as well as it can be. */
const usualSeconds = 20;

interface Wanted {
  readonly seconds: number | null;
  readonly notBefore: string | null;
}

/** Asks for a plan, and goes to where it is made. */
export function Ask({ hasPublished }: { readonly hasPublished: boolean }) {
  const { id: yardId, timeZone: zone } = useYard();
  const { route } = useLocation();
  const form = useForm<Wanted>(
    { seconds: usualSeconds, notBefore: null },
    async ({ seconds, notBefore }, headers) => {
      const { id } = await asked(
        api.POST('/api/v1/yards/{yardId}/plan-runs', {
          params: { path: { yardId } },
          headers,
          body: {
            ...(seconds === null ? {} : { seconds }),
            ...(notBefore === null ? {} : { notBefore }),
          },
        }),
      );
      route(`/yards/${yardId}/plans/runs/${id}`);
    },
  );
  return (
    <Panel title={texts.ask}>
      <form class={css['form']} onSubmit={form.submit}>
        <NumberField
          label={texts.seconds}
          hint={texts.secondsHint}
          unit={texts.secondsUnit}
          min={1}
          max={3600}
          {...form.at('seconds')}
        />
        <MomentField
          label={texts.notBefore}
          hint={texts.notBeforeHint}
          isOptional
          zone={zone}
          {...form.at('notBefore')}
        />
        <ProblemNotice problem={form.problem} />
        <div>
          <Button kind="do" type="submit" isBusy={form.isBusy}>
            {texts.start}
          </Button>
        </div>
      </form>
      {hasPublished && <AskStable />}
    </Panel>
  );
}

/** One that keeps to what people have been told, as far as that still holds. */
function AskStable() {
  const { isBusy, problem, ask } = usePlanAgain(true);
  return (
    <Stack>
      <div>
        <Button isBusy={isBusy} onPress={ask}>
          {texts.askStable}
        </Button>
      </div>
      <p class={css['soft']}>{texts.askStableHint}</p>
      <ProblemNotice problem={problem} />
    </Stack>
  );
}
