import { useLocation, useRoute } from 'preact-iso/router';
import type { Schema } from '../../api/client.ts';
import { ChoiceField } from '../../form/fields.tsx';
import { useTitle } from '../../frame/title.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Notice, Panel, ProblemNotice, Stack } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { plans as texts } from '../../texts/plans.ts';
import { BoatsCompared, WindowsCompared } from './boats-compared.tsx';
import { Changes } from './changes.tsx';
import { type Compared, useCompared } from './compared.ts';
import { Decide } from './decide.tsx';
import { Ways } from './entry.tsx';
import { Finishes } from './finishes.tsx';
import { MoneyCompared } from './money-compared.tsx';
import css from './plans.module.css';
import { usePlans } from './readings.ts';
import { Shortens } from './shortens.tsx';

/** What a plan changes against another, what that costs, and the foreman's word on it. */
export default function Comparison() {
  const { params } = useRoute();
  const { planId = '', fromId = '' } = params;
  useTitle(texts.comparison);
  const { data, problem, again } = useCompared(planId, fromId === '' ? null : fromId);
  return (
    <Stack>
      <h1>{texts.comparison}</h1>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data !== undefined && <Shown data={data} fromId={fromId} onDecided={again} />}
    </Stack>
  );
}

function Shown({
  data,
  fromId,
  onDecided,
}: {
  readonly data: Compared;
  readonly fromId: string;
  readonly onDecided: () => void;
}) {
  const { id: yardId, timeZone: zone } = useYard();
  const { plan, publishedId, candidate, difference, before } = data;
  const isPublished = publishedId === plan.id;
  return (
    <>
      <p>{texts.planOf(dayAndClock(plan.createdAt, zone))}</p>
      {candidate !== null && <Cause candidate={candidate} />}
      {isPublished && <Notice tone="well" title={texts.isPublished} />}
      {publishedId === null && <Notice title={texts.firstPlan} />}
      {plan.caution !== '' && (
        <Notice tone="heed" title={texts.caution}>
          <p>{plan.caution}</p>
        </Notice>
      )}
      <Decide data={data} onDecided={onDecided} />
      {!isPublished || fromId !== '' ? <Against data={data} fromId={fromId} /> : null}
      <div class={css['columns']}>
        <Stack>
          {difference === null ? (
            <Panel title={texts.boatFinishes}>
              <Finishes boats={plan.boats} />
            </Panel>
          ) : (
            <>
              <Panel title={texts.inWords}>
                {difference.words.length === 0 ? (
                  <p>{texts.nothingChanges}</p>
                ) : (
                  <ul class={css['words']}>
                    {difference.words.map((words) => (
                      <li key={words}>{words}</li>
                    ))}
                  </ul>
                )}
              </Panel>
              <BoatsCompared boats={difference.boats} />
              <WindowsCompared windows={difference.windows} />
            </>
          )}
          <Ways yardId={yardId} planId={plan.id} isPublished={isPublished} isCompared />
        </Stack>
        <Stack>
          {difference !== null && <Changes difference={difference} />}
          <MoneyCompared plan={plan} against={before} />
          <Shortens planId={plan.id} />
        </Stack>
      </div>
    </>
  );
}

function Cause({ candidate }: { readonly candidate: Schema<'CandidateView'> }) {
  return (
    <>
      <ul aria-label={texts.cause}>
        {candidate.cause.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {candidate.since.length > 0 && (
        <Notice tone="heed" title={texts.since}>
          <ul>
            {candidate.since.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
          <p>{texts.sinceCure}</p>
        </Notice>
      )}
    </>
  );
}

/** Which other plan it is held against. */
function Against({ data, fromId }: { readonly data: Compared; readonly fromId: string }) {
  const { plan, publishedId, before } = data;
  const { id: yardId, timeZone: zone } = useYard();
  const { route } = useLocation();
  const recent = usePlans().data?.plans ?? [];
  // What it is held against may be older than those that were read.
  const known = before === null || recent.some(({ id }) => id === before.id);
  const others = [...recent, ...(known ? [] : [before])].filter(
    ({ id }) => id !== plan.id && id !== publishedId,
  );
  if (others.length === 0) return null;
  return (
    <div class={css['form']}>
      <ChoiceField
        label={texts.against}
        value={fromId === publishedId ? '' : fromId}
        onValue={(id) =>
          route(`/yards/${yardId}/plans/${plan.id}/against${id === '' ? '' : `/${id}`}`)
        }
        options={[
          { value: '', label: texts.againstPublished },
          ...others.map(({ id, createdAt }) => ({
            value: id,
            label: texts.planOf(dayAndClock(createdAt, zone)),
          })),
        ]}
      />
    </div>
  );
}
