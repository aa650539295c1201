import { useState } from 'preact/hooks';
import { type Schema } from '../../api/client.ts';
import { type Problem, problemOf } from '../../api/problem.ts';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Button, Notice, Panel, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { plans as texts } from '../../texts/plans.ts';
import { Ask } from './ask.tsx';
import { Entry, stateOf, Ways } from './entry.tsx';
import { Finishes } from './finishes.tsx';
import css from './plans.module.css';
import { olderPlans, type PlansRead, type Published, usePlans } from './readings.ts';

/** Plans that were made, those that wait for the foreman's word first, and a new one. */
export default function Plans() {
  useTitle(texts.title);
  const { data, problem, again } = usePlans();
  return (
    <Stack>
      <h1>{texts.title}</h1>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data !== undefined && (
        <div class={css['columns']}>
          <Stack>
            <InTheMaking runs={data.runs} />
            <Waiting data={data} />
            <Current published={data.published} />
            <Earlier key={data.plans.at(0)?.id} data={data} />
          </Stack>
          <Ask hasPublished={data.published !== null} />
        </div>
      )}
    </Stack>
  );
}

function InTheMaking({ runs }: Pick<PlansRead, 'runs'>) {
  const { id: yardId, timeZone: zone } = useYard();
  if (runs.length === 0) return null;
  return (
    <Panel title={texts.runsNow}>
      <ul>
        {runs.map(({ id, createdAt, purpose, status }) => (
          <li key={id}>
            <a href={`/yards/${yardId}/plans/runs/${id}`}>
              {texts.runOf(dayAndClock(createdAt, zone))}
            </a>{' '}
            ({texts.runBy[purpose]}, {texts.status[status]})
          </li>
        ))}
      </ul>
    </Panel>
  );
}

const candidateOf = (
  { candidates }: PlansRead,
  { id }: Schema<'PlanSummary'>,
): Schema<'Candidate'> | undefined => candidates.find(({ planId }) => planId === id);

const isOpen = (data: PlansRead, plan: Schema<'PlanSummary'>): boolean =>
  stateOf(plan, candidateOf(data, plan)) === 'open';

function Waiting({ data }: { readonly data: PlansRead }) {
  const open = data.plans.filter((plan) => isOpen(data, plan));
  if (open.length === 0) return null;
  return (
    <Panel title={texts.open}>
      <List data={data} plans={open} />
    </Panel>
  );
}

function Current({ published }: { readonly published: Published | null }) {
  const { id: yardId, timeZone: zone } = useYard();
  if (published === null) {
    return (
      <Notice title={texts.none}>
        <p>{texts.noneCure}</p>
      </Notice>
    );
  }
  return (
    <Panel title={texts.current}>
      <p>{texts.publishedAt(dayAndClock(published.at, zone))}</p>
      <Finishes boats={published.boats} />
      <Ways yardId={yardId} planId={published.planId} isPublished />
    </Panel>
  );
}

function Earlier({ data }: { readonly data: PlansRead }) {
  const { id: yardId } = useYard();
  const [older, setOlder] = useState<readonly Schema<'PlanSummary'>[]>([]);
  const [cursor, setCursor] = useState(data.nextCursor);
  const [isBusy, setBusy] = useState(false);
  const [problem, setProblem] = useState<Problem>();
  const all = [...data.plans, ...older].filter(
    (plan) => plan.publishedAt === null && !isOpen(data, plan),
  );
  const more = (after: string): void => {
    setBusy(true);
    setProblem(undefined);
    olderPlans(yardId, after)
      .then(
        (page) => {
          setOlder((was) => [...was, ...page.items]);
          setCursor(page.nextCursor);
        },
        (error: unknown) => setProblem(problemOf(error)),
      )
      .finally(() => setBusy(false));
  };
  return (
    <Panel title={texts.earlier}>
      {all.length === 0 ? <p>{texts.noEarlier}</p> : <List data={data} plans={all} />}
      <ProblemNotice problem={problem} />
      {cursor !== null && (
        <div>
          <Button isBusy={isBusy} onPress={() => more(cursor)}>
            {texts.older}
          </Button>
        </div>
      )}
    </Panel>
  );
}

const List = ({
  data,
  plans,
}: {
  readonly data: PlansRead;
  readonly plans: readonly Schema<'PlanSummary'>[];
}) => (
  <ul class={css['list']}>
    {plans.map((plan) => (
      <Entry key={plan.id} plan={plan} candidate={candidateOf(data, plan)} names={data.boats} />
    ))}
  </ul>
);
