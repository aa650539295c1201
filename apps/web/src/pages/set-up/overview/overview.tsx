import { api, asked } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { useYard } from '../../../frame/yard.tsx';
import { ButtonLink, Busy, Notice, Panel, ProblemNotice } from '../../../looks/looks.tsx';
import { longDay } from '../../../show/time.ts';
import { setUp as texts } from '../../../texts/set-up.ts';
import { useList } from '../lists/lists.ts';
import { useClasses } from '../materials/classes.ts';
import type { Group, Room } from '../room.ts';
import { rooms } from '../rooms.ts';
import css from '../set-up.module.css';
import { readBeginnings, readOutdoorEnd } from './beginnings.ts';
import { type Need, needs } from './missing.ts';
import { unweighed } from './unweighed.ts';

const groups = Object.keys(texts.groups) as Group[];
const names = Object.keys(rooms) as Room[];
const dayMs = 86_400_000;

/** All rooms, and above them what the first plan still needs. */
export function Overview() {
  const yard = useYard();
  const live = {
    yardId: yard.id,
    on: ({ subject }: { readonly subject: string }) => subject !== 'task',
  };
  const beginnings = useResource(
    `beginnings ${yard.id}`,
    (signal) => readBeginnings(yard.id, signal),
    live,
  );
  const top = `/yards/${yard.id}/set-up`;
  return (
    <div class={css['page']}>
      <h1>{texts.title}</h1>
      <ProblemNotice problem={beginnings.problem} again={beginnings.again} />
      {beginnings.data === undefined && beginnings.problem === undefined && <Busy />}
      {beginnings.data !== undefined && <Missing all={needs(beginnings.data)} />}
      <Unweighed />
      <OutdoorEnds />
      <Warned />
      {groups.map((group) => (
        <Panel key={group} title={texts.groups[group]}>
          <ul class={css['tiles']}>
            {names
              .filter((room) => rooms[room].group === group)
              .map((room) => (
                <li key={room}>
                  <a class={css['tile']} href={`${top}/${room}`}>
                    <span class={css['tileName']}>{texts.rooms[room]}</span>
                    <span class={css['soft']}>{texts.about[room]}</span>
                  </a>
                </li>
              ))}
          </ul>
        </Panel>
      ))}
    </div>
  );
}

function Missing({ all }: { readonly all: readonly Need[] }) {
  const { id } = useYard();
  if (all.every(({ isDone }) => isDone)) return null;
  const next = all.find(({ isDone }) => !isDone);
  return (
    <Panel title={texts.missing.title}>
      <p>{texts.missing.lead}</p>
      <ol class={css['checklist']}>
        {all.map((need) => (
          <li key={need.what} class={css['check']} data-done={need.isDone}>
            <span class={css['box']} aria-hidden="true">
              {need.isDone && '✓'}
            </span>
            <span class={css['what']}>
              {wordsOf(need)}{' '}
              <span class="said">{need.isDone ? texts.missing.done : texts.missing.open}</span>
            </span>
            {need === next && (
              <ButtonLink
                kind="do"
                to={
                  need.where === 'plan' ? `/yards/${id}/plans` : `/yards/${id}/set-up/${need.where}`
                }
              >
                {need.where === 'plan' ? texts.missing.go.plan : texts.missing.go.open}
              </ButtonLink>
            )}
          </li>
        ))}
      </ol>
    </Panel>
  );
}

function wordsOf({ what, isDone, names: lacking }: Need): string {
  if (isDone || lacking.length === 0) return texts.missing[what];
  if (what === 'builder') return texts.missing.builderHours(lacking);
  if (what === 'skills') return texts.missing.skillsOf(lacking);
  return texts.missing[what];
}

/** Plans do without, mixing does not: said before somebody stands there with an empty cup. */
function Unweighed() {
  const { id } = useYard();
  const materials = useList('materials').data;
  const procedures = useList('procedures').data;
  const classes = useClasses().data;
  if (materials === undefined || procedures === undefined || classes === undefined) return null;
  const lacking = unweighed(materials, classes, procedures);
  if (lacking.length === 0) return null;
  return (
    <Notice tone="heed" title={texts.unweighed}>
      <p>{texts.unweighedCure}</p>
      <ul>
        {lacking.map((material) => (
          <li key={material.id}>
            <a href={`/yards/${id}/set-up/materials/${material.id}`}>
              <bdi>{material.name}</bdi>
            </a>
          </li>
        ))}
      </ul>
    </Notice>
  );
}

/** Plans look further than the weather does. */
function OutdoorEnds() {
  const yard = useYard();
  const { data: end } = useResource(`outdoor end ${yard.id}`, (signal) =>
    readOutdoorEnd(yard.id, signal),
  );
  if (end === undefined || end === null) return null;
  const looksUntil = Math.max(Date.parse(yard.planFrom), Date.now()) + yard.horizonDays * dayMs;
  if (end >= looksUntil) return null;
  return (
    <Notice tone="heed">
      <p>{texts.outdoorEnds(longDay(end, yard.timeZone))}</p>
      <a href={`/yards/${yard.id}/set-up/outdoor`}>{texts.outdoorEndsWay}</a>
    </Notice>
  );
}

function Warned() {
  const { id } = useYard();
  const { data } = useResource(`warnings ${id}`, (signal) =>
    asked(api.GET('/api/v1/yards/{yardId}/warnings', { params: { path: { yardId: id } }, signal })),
  );
  if (data === undefined || data.items.length === 0) return null;
  return (
    <Notice tone="heed">
      <a href={`/yards/${id}/set-up/warnings`}>{texts.warned(data.items.length)}</a>
    </Notice>
  );
}
