import { useYard } from '../../../frame/yard.tsx';
import { Busy, ButtonLink, ProblemNotice } from '../../../looks/looks.tsx';
import { procedures as texts } from '../../../texts/procedures.ts';
import { setUp } from '../../../texts/set-up.ts';
import { useList } from '../lists/lists.ts';
import { RoomPage } from '../page.tsx';
import { newId } from '../record/record-page.tsx';
import css from '../set-up.module.css';

export function ProcedureList() {
  const yard = useYard();
  const { data, problem, again } = useList('procedures');
  const base = `/yards/${yard.id}/set-up/procedures`;
  return (
    <RoomPage room="procedures" isNarrow={false}>
      <p class={css['soft']}>{setUp.about.procedures}</p>
      <div>
        <ButtonLink to={`${base}/${newId}`} kind="do">
          {texts.isNew}
        </ButtonLink>
      </div>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      <ul class={css['tiles']}>
        {data?.map(({ id, name, steps, version }) => (
          <li key={id}>
            <a class={css['tile']} href={`${base}/${id}`}>
              <span class={css['tileName']}>
                <bdi>{name}</bdi>
              </span>
              <span class={css['soft']}>{texts.line(steps.length, version)}</span>
            </a>
          </li>
        ))}
      </ul>
    </RoomPage>
  );
}
