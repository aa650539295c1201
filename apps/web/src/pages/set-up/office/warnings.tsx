import { api, asked } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Notice, ProblemNotice } from '../../../looks/looks.tsx';
import { office } from '../../../texts/set-up-office.ts';
import { RoomPage } from '../page.tsx';
import css from '../set-up.module.css';

const texts = office.warnings;

/** What may be planned, but should be looked at. */
export default function Warnings() {
  const { id: yardId } = useYard();
  const { data, problem, again } = useResource(
    `warnings ${yardId}`,
    (signal) =>
      asked(api.GET('/api/v1/yards/{yardId}/warnings', { params: { path: { yardId } }, signal })),
    { yardId, on: ({ subject }) => subject !== 'task' },
  );
  return (
    <RoomPage room="warnings">
      <p class={css['soft']}>{texts.lead}</p>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      {data?.items.length === 0 && <p>{texts.none}</p>}
      <ul class={css['plainList']}>
        {data?.items.map(({ path, message, source }, at) => (
          <li key={at}>
            <Notice tone="heed">
              <p>{message}</p>
              {source !== null && <p class={css['soft']}>{texts.source(source)}</p>}
              <p class={css['soft']}>{texts.where(path)}</p>
            </Notice>
          </li>
        ))}
      </ul>
    </RoomPage>
  );
}
