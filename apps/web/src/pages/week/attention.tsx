import { api, asked } from '../../api/client.ts';
import { useResource } from '../../api/resource.ts';
import { useYard } from '../../frame/yard.tsx';
import { ButtonLink, Notice, Row } from '../../looks/looks.tsx';
import { week as texts } from '../../texts/week.ts';
import css from './week.module.css';

/** What needs the foreman's word, or is on its way to. */
export function Attention() {
  const { id: yardId } = useYard();
  const params = { path: { yardId } };
  const candidates = useResource(
    `open candidate ${yardId}`,
    (signal) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/candidates', {
          params: { ...params, query: { state: 'open', first: 1 } },
          signal,
        }),
      ),
    { yardId, on: ({ kind }) => /^(candidate|plan-published)/.test(kind) },
  );
  const runs = useResource(
    `newest run ${yardId}`,
    (signal) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/plan-runs', {
          params: { ...params, query: { first: 1 } },
          signal,
        }),
      ),
    { yardId, on: ({ kind }) => kind.startsWith('plan-run') && kind !== 'plan-run-progress' },
  );
  const candidate = candidates.data?.items[0];
  const run = runs.data?.items[0];
  const isRunning = run !== undefined && ['queued', 'running'].includes(run.status);
  return (
    <>
      {candidate !== undefined && (
        <Notice tone="heed" title={texts.candidate} isNews>
          <ul class={css['plain']}>
            {candidate.cause.map((cause) => (
              <li key={cause}>{cause}</li>
            ))}
          </ul>
          <div>
            <ButtonLink to={`/yards/${yardId}/plans/${candidate.planId}/against`}>
              {texts.toCandidate}
            </ButtonLink>
          </div>
        </Notice>
      )}
      {isRunning && (
        <Notice isNews>
          <Row apart>
            <strong>{texts.running}</strong>
            <ButtonLink to={`/yards/${yardId}/plans/runs/${run.id}`}>{texts.toRun}</ButtonLink>
          </Row>
        </Notice>
      )}
    </>
  );
}
