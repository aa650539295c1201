import type { Schema } from '../../api/client.ts';
import { useYard } from '../../frame/yard.tsx';
import { ButtonLink, Row } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { plans as texts } from '../../texts/plans.ts';
import type { BoatNames } from './boat-names.ts';
import { ShortFinishes } from './finishes.tsx';
import css from './plans.module.css';

export type PlanState = 'published' | 'open' | 'discarded' | 'superseded' | 'draft';

export const stateOf = (
  { publishedAt }: Pick<Schema<'PlanSummary'>, 'publishedAt'>,
  candidate: Schema<'Candidate'> | undefined,
): PlanState => {
  if (publishedAt !== null) return 'published';
  const { state = 'draft' } = candidate ?? {};
  // Published once, and another since.
  return state === 'published' ? 'superseded' : state;
};

/** A plan in the list: when, why, what becomes of the boats, and what can be done with it. */
export function Entry({
  plan,
  candidate,
  names,
}: {
  readonly plan: Schema<'PlanSummary'>;
  readonly candidate: Schema<'Candidate'> | undefined;
  readonly names: BoatNames;
}) {
  const { id: yardId, timeZone: zone } = useYard();
  const state = stateOf(plan, candidate);
  return (
    <li class={css['entry']}>
      <Row apart>
        <h3>{texts.madeAt(dayAndClock(plan.createdAt, zone))}</h3>
        <span class={css['state']} data-state={state}>
          {texts.state[state]}
        </span>
      </Row>
      {candidate !== undefined && (
        <>
          <ul>
            {candidate.cause.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
          <p class={css['soft']}>{texts.moved(candidate.moved)}</p>
        </>
      )}
      <ShortFinishes refits={plan.refits} names={names} />
      <Ways yardId={yardId} planId={plan.id} isPublished={state === 'published'} />
    </li>
  );
}

/** Where one can go with a plan. */
export const Ways = ({
  yardId,
  planId,
  isPublished,
  isCompared = false,
}: {
  readonly yardId: string;
  readonly planId: string;
  readonly isPublished: boolean;
  /** What it changes is what one looks at. */
  readonly isCompared?: boolean;
}) => (
  <Row>
    {!isPublished && !isCompared && (
      <ButtonLink kind="do" to={`/yards/${yardId}/plans/${planId}/against`}>
        {texts.compare}
      </ButtonLink>
    )}
    <ButtonLink to={`/yards/${yardId}/week${isPublished ? '' : `?plan=${planId}`}`}>
      {texts.look}
    </ButtonLink>
    <ButtonLink to={`/yards/${yardId}/plans/${planId}/sheet`}>{texts.sheet}</ButtonLink>
  </Row>
);
