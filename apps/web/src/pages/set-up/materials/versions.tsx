import { api, asked, type Schema } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Panel, ProblemNotice } from '../../../looks/looks.tsx';
import { dayAndClock } from '../../../show/time.ts';
import { materials as texts } from '../../../texts/materials.ts';
import { nameIn, useList } from '../lists/lists.ts';
import { changedIn } from './changed-in.ts';
import css from './materials.module.css';

type Version = Schema<'MaterialVersion'>;
function wordsOf(version: Version, before: Version | undefined): string {
  if (before === undefined) return texts.versions.first;
  const fields = changedIn(version.material, before.material);
  return fields.length === 0 ? texts.versions.same : texts.versions.changed(fields);
}

/** How its sheet has changed, newest first. */
export function Versions({ id, revision }: { readonly id: string; readonly revision: number }) {
  const { id: yardId, timeZone } = useYard();
  const people = useList('people');
  const { data, problem, again } = useResource(`versions ${id} ${String(revision)}`, (signal) =>
    asked(
      api.GET('/api/v1/yards/{yardId}/materials/{id}/versions', {
        params: { path: { yardId, id } },
        signal,
      }),
    ),
  );
  return (
    <Panel title={texts.versions.title}>
      <p class={css['soft']}>{texts.versions.lead}</p>
      <ProblemNotice problem={problem} again={again} />
      {data === undefined && problem === undefined && <Busy />}
      <ol class={css['versions']} reversed>
        {data?.items.map((version, k) => (
          <li key={version.version}>
            <strong>{texts.versions.name(version.version)}</strong>
            <span class={css['soft']}>
              {texts.versions.by(
                dayAndClock(version.at, timeZone),
                version.by === null ? texts.versions.withYard : nameIn(people.data, version.by),
              )}
            </span>
            <span>{wordsOf(version, data.items[k + 1])}</span>
          </li>
        ))}
      </ol>
    </Panel>
  );
}
