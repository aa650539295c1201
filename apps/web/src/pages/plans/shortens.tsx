import { useState } from 'preact/hooks';
import { api, asked } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { useYard } from '../../frame/yard.tsx';
import { Busy, Button, Panel, ProblemNotice } from '../../looks/looks.tsx';
import { plans as texts } from '../../texts/plans.ts';
import css from './plans.module.css';

/** What holds the boats up, and what would be gained without it; found out when asked. */
export function Shortens({ planId }: { readonly planId: string }) {
  const { id: yardId } = useYard();
  const [isAsked, setAsked] = useState(false);
  const found = useResource(isAsked ? `shortens ${planId}` : null, (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/plans/{id}/what-shortens', {
        params: { path: { yardId, id: planId } },
        signal,
      }),
    ),
  );
  const { data, problem, again } = found;
  return (
    <Panel title={texts.shortens}>
      {!isAsked && (
        <>
          <p class={css['soft']}>{texts.shortensHint}</p>
          <div>
            <Button onPress={() => setAsked(true)}>{texts.askShortens}</Button>
          </div>
        </>
      )}
      <ProblemNotice problem={problem} again={again} />
      <div role="status">
        {isAsked && data === undefined && problem === undefined && <Busy />}
        {data?.shortenings.length === 0 && <p>{texts.noShortens}</p>}
        {data !== undefined && data.shortenings.length > 0 && (
          <ol class={css['words']}>
            {data.shortenings.map(({ text }) => (
              <li key={text}>{text}</li>
            ))}
          </ol>
        )}
      </div>
    </Panel>
  );
}
