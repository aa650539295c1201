import { useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { useResource } from '../../../api/resource.ts';
import { ChoiceField, MomentField, NumberField, QuantityField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Busy, Notice, Panel, ProblemNotice } from '../../../looks/looks.tsx';
import { materials as texts } from '../../../texts/materials.ts';
import { optionsOf, useList } from '../lists/lists.ts';
import page from '../set-up.module.css';
import { FilmChart } from './film-chart.tsx';
import type { Material } from './material-collection.ts';
import type { Sheet } from './sheet.ts';

const minuteMs = 60_000;
/** No space has an id like that. */
const constant = '+';

interface Asked {
  readonly space: string | undefined;
  readonly celsius: number | null;
  readonly laid: string;
  readonly minutes: number | null;
}

/** The moment, without its seconds: the service reckons in whole minutes. */
const wholeMinute = (ms: number): string =>
  new Date(Math.floor(ms / minuteMs) * minuteMs).toISOString();

function queryOf({ space, celsius, laid, minutes }: Asked) {
  const laidUntil = wholeMinute(Date.parse(laid) + (minutes ?? 0) * minuteMs);
  const place = space === undefined || space === constant ? { celsius: celsius ?? 20 } : { space };
  return { ...place, laidFrom: laid, laidUntil };
}

/** When a film of it would reach its milestones: in a space as it is now, or at one temperature. */
export function FilmPreview({
  material,
  sheet,
}: {
  readonly material: Material;
  readonly sheet: Sheet;
}) {
  const { id: yardId, timeZone } = useYard();
  const spaces = useList('spaces');
  const [wanted, setWanted] = useState<Asked>(() => ({
    space: undefined,
    celsius: 20,
    laid: wholeMinute(Date.now()),
    minutes: 30,
  }));
  const set = (some: Partial<Asked>): void => setWanted((was) => ({ ...was, ...some }));
  const space =
    wanted.space ?? (spaces.data === undefined ? undefined : (spaces.data[0]?.id ?? constant));
  const query = queryOf({ ...wanted, space });
  const isAskable = space !== undefined && (space !== constant || wanted.celsius !== null);
  const film = useResource<Schema<'FilmTimes'>>(
    isAskable ? `${material.id} ${String(material.revision)} ${JSON.stringify(query)}` : null,
    (signal) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/materials/{id}/film', {
          params: { path: { yardId, id: material.id }, query },
          signal,
        }),
      ),
    { yardId, on: ({ subject }) => subject === 'space' || subject === 'reading' },
  );
  return (
    <Panel title={texts.film.title}>
      {spaces.data?.length === 0 && <p>{texts.film.noSpaces}</p>}
      <div class={page['cols']}>
        <ChoiceField
          label={texts.film.where}
          value={space ?? constant}
          onValue={(id) => set({ space: id })}
          options={[...optionsOf(spaces.data), { value: constant, label: texts.film.constant }]}
        />
        {space === constant && (
          <QuantityField
            kind="temperature"
            label={texts.film.temperature}
            value={wanted.celsius}
            onValue={(celsius) => set({ celsius })}
          />
        )}
        <MomentField
          label={texts.film.laid}
          zone={timeZone}
          value={wanted.laid}
          onValue={(laid) => {
            if (laid !== null) set({ laid });
          }}
        />
        <NumberField
          label={texts.film.takes}
          unit={texts.minutesUnit}
          min={0}
          value={wanted.minutes}
          onValue={(minutes) => set({ minutes })}
        />
      </div>
      <ProblemNotice problem={film.problem} />
      {film.data === undefined && film.problem === undefined && isAskable && <Busy />}
      {film.data !== undefined && (
        <FilmChart
          film={film.data}
          laidFrom={query.laidFrom}
          laidUntil={query.laidUntil}
          name={sheet.name}
        />
      )}
      {film.data?.assumed === true && <Notice tone="heed">{texts.film.assumed}</Notice>}
    </Panel>
  );
}
