import { useState } from 'preact/hooks';
import { api, asked, ifMatch, type Schema } from '../api/client.ts';
import { type Problem, problemOf } from '../api/problem.ts';
import { MomentField, SeveralField } from '../form/fields.tsx';
import { useForm } from '../form/form.ts';
import { useYard } from '../frame/yard.tsx';
import { Button, Notice, ProblemNotice, Row, Stack } from '../looks/looks.tsx';
import { dayAndClock } from '../show/time.ts';
import { common } from '../texts/common.ts';
import { placing as texts } from '../texts/placing.ts';
import type { Hand } from './hands.ts';
import { changesOf, type Setting, settingOf, startOf, withTrial, wishOf } from './setting.ts';
import { Order } from './order.tsx';
import { PlanAgain } from './plan-again.tsx';
import css from './placing.module.css';
import { TriedWords } from './tried-words.tsx';
import type { Wish } from './try-placement.ts';
import { useTrial } from './use-trial.ts';

type Task = Schema<'Task'>;

interface SetByHandProps {
  readonly task: Task;
  readonly hands: readonly Hand[];
  readonly planned: Schema<'TaskOfPlan'>;
  readonly trial: Wish;
  /** What the task has become. */
  readonly onTask: (task: Task) => void;
  /** Somebody else changed it. */
  readonly onStale: () => void;
}

/** Start, crew and order, tried as they are changed. */
export function SetByHand({ task, hands, planned, trial, onTask, onStale }: SetByHandProps) {
  const { id: yardId, timeZone: zone } = useYard();
  const [news, setNews] = useState<string>();
  const save = async (patch: Schema<'TaskPatch'>, said: string): Promise<void> => {
    setNews(undefined);
    try {
      const now = await asked(
        api.PATCH('/api/v1/yards/{yardId}/tasks/{id}', {
          params: { path: { yardId, id: task.id }, header: ifMatch(task.revision) },
          body: patch,
        }),
      );
      onTask(now);
      form.reset(settingOf(now));
      setNews(said);
    } catch (error) {
      if (problemOf(error).status !== 412) throw error;
      onStale();
      setNews(common.changedMeanwhile);
    }
  };
  const form = useForm<Setting>(withTrial(settingOf(task), trial), (values) =>
    save(changesOf(task, { ...values, start: startOf(values, tried.tried) }), texts.kept),
  );
  const [isReleasing, setReleasing] = useState(false);
  const [refusal, setRefusal] = useState<Problem>();
  const releaseAll = (): void => {
    setReleasing(true);
    setRefusal(undefined);
    save(changesOf(task, { start: null, crew: [], after: [] }), texts.released)
      .catch((error: unknown) => setRefusal(problemOf(error)))
      .finally(() => setReleasing(false));
  };
  const wish = wishOf(form.values);
  const tried = useTrial(planned.planId, task.id, wish);
  const isSet = task.fixedStart !== null || task.crew.length > 0 || task.after.length > 0;
  const isChanged = Object.keys(changesOf(task, form.values)).length > 0;
  return (
    <form onSubmit={form.submit}>
      <Stack>
        <p class={css['soft']}>{texts.handHint}</p>
        <NowSet task={task} />
        <MomentField
          label={texts.start}
          hint={texts.startHint}
          zone={zone}
          value={form.values.start}
          onValue={(start) => form.set('start', start)}
          fault={form.faultAt('fixedStart')}
        />
        <Crew
          task={task}
          hands={hands}
          crew={form.values.crew}
          onCrew={(crew) => form.set('crew', crew)}
        />
        <TriedWords trial={tried} onTake={(start) => form.set('start', start)} />
        <Order
          task={task}
          after={form.values.after}
          onAfter={(after) => form.set('after', after)}
        />
        <ProblemNotice problem={form.problem ?? refusal} />
        <Row>
          <Button
            kind="do"
            type="submit"
            isBusy={form.isBusy || tried.isBusy}
            disabled={!isChanged}
          >
            {texts.fix}
          </Button>
          {isSet && (
            <Button isBusy={form.isBusy || isReleasing} onPress={releaseAll}>
              {texts.release}
            </Button>
          )}
        </Row>
        <div role="status">
          {news !== undefined && (
            <Notice tone={news === common.changedMeanwhile ? 'heed' : 'well'} title={news} />
          )}
        </div>
        {(news === texts.kept || news === texts.released) && (
          <PlanAgain isPublished={planned.publishedAt !== null} />
        )}
      </Stack>
    </form>
  );
}

function NowSet({ task }: { readonly task: Task }) {
  const { timeZone: zone } = useYard();
  const { fixedStart, crew, after } = task;
  const set = [
    ...(fixedStart === null ? [] : [texts.setStart(dayAndClock(fixedStart, zone))]),
    ...(crew.length === 0 ? [] : [texts.setCrew(crew.map(({ name }) => name))]),
    ...(after.length === 0 ? [] : [texts.setAfter(after.length)]),
  ];
  if (set.length === 0) return <p>{texts.nothingSet}</p>;
  return (
    <p>
      <strong>{texts.isSet}</strong> {set.join('; ')}
    </p>
  );
}

function Crew({
  task,
  hands,
  crew,
  onCrew,
}: {
  readonly task: Task;
  readonly hands: readonly Hand[];
  readonly crew: readonly string[];
  readonly onCrew: (crew: readonly string[]) => void;
}) {
  if (task.skill === null) return null;
  const options = hands.map(({ id, name, isAble }) => ({
    value: id,
    label: isAble ? name : texts.notAble(name),
  }));
  return (
    <div>
      <SeveralField label={texts.crew} values={crew} onValues={onCrew} options={options} />
      <p class={css['soft']}>
        {texts.crewSize(task.crewMin, task.crewMax)} {texts.crewHint}
      </p>
    </div>
  );
}
