import { scalePow } from 'd3-scale';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Schema } from '../../../api/client.ts';
import { FilmLegend } from '../../../film/legend.tsx';
import { marksOf, stagesOf } from '../../../film/stages.ts';
import { FilmStrip } from '../../../film/strip.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { dayAndClock, minutesBetween, span } from '../../../show/time.ts';
import { materials as texts } from '../../../texts/materials.ts';
import css from './materials.module.css';

type Film = Schema<'FilmTimes'>;
type Mark = Film['marks'][number];
type Window = Film['windows'][number];

interface ChartProps {
  readonly film: Film;
  readonly laidFrom: string;
  readonly laidUntil: string;
  readonly name: string;
}

/** Where the axis may be marked, minutes; the film of an hour and of a month have the same chart. */
const marksOfAxis = [0, 30, 60, 120, 240, 480, 720, 1440, 2880, 4320, 7200, 10_080, 20_160, 43_200];
/** Two marks are at least this far apart, percent of the axis. */
const apart = 11;
/** How much wider the beginning is drawn: windows of minutes and a cure of a week are both seen. */
const exponent = 0.42;

const ends = ({ when, earliest, latest }: Mark): string[] =>
  [when, earliest, latest].flatMap((one) => (one === null ? [] : [one.at]));

/** A film's milestones, one below the other, over the time since it was laid; all of it in words too. */
export function FilmChart({ film, laidFrom, laidUntil, name }: ChartProps) {
  const { timeZone } = useYard();
  const last = Math.max(
    60,
    minutesBetween(laidFrom, laidUntil),
    ...film.marks.flatMap(ends).map((at) => minutesBetween(laidFrom, at)),
  );
  const scale = scalePow().exponent(exponent).domain([0, last]).range([0, 100]).clamp(true);
  const percent = (at: string | number): number =>
    scale(typeof at === 'number' ? at : minutesBetween(laidFrom, at));
  return (
    <figure class={css['chart']} aria-label={texts.film.chart(name)}>
      <Strip film={film} laidFrom={laidFrom} laidUntil={laidUntil} last={last} percent={percent} />
      <Axis last={last} percent={percent} />
      <ol class={css['marks']}>
        {film.marks.map((mark) => (
          <li key={mark.milestone} class={css['mark']}>
            <MarkWords mark={mark} laidUntil={laidUntil} zone={timeZone} />
            <Bar mark={mark} percent={percent} />
          </li>
        ))}
      </ol>
      <ul class={css['windows']}>
        {film.windows.map((window) => (
          <li key={window.kind}>
            <strong>{texts.film.windows[window.kind]}</strong> {windowWords(window, timeZone)}
          </li>
        ))}
      </ul>
      <figcaption class={css['soft']}>{texts.film.legend}</figcaption>
      <FilmLegend />
    </figure>
  );
}

function windowWords({ opens, closes, empty }: Window, zone: string): string {
  if (empty) return texts.film.empty;
  const words = (at: Window['opens']): string =>
    at === null ? texts.film.never : dayAndClock(at.at, zone);
  return texts.film.window(words(opens), words(closes));
}

function MarkWords({
  mark,
  laidUntil,
  zone,
}: {
  readonly mark: Mark;
  readonly laidUntil: string;
  readonly zone: string;
}) {
  const { when, earliest, latest, words, touchTest } = mark;
  const isWide = earliest !== null && latest !== null && earliest.at !== latest.at;
  return (
    <div class={css['markWords']}>
      <strong>{words}</strong>
      {when === null ? (
        <span>{texts.film.never}</span>
      ) : (
        <span>
          {dayAndClock(when.at, zone)}{' '}
          <span class={css['soft']}>
            {texts.film.afterwards(span(minutesBetween(laidUntil, when.at)))}
          </span>
        </span>
      )}
      {isWide && (
        <span class={css['soft']}>
          {texts.film.between(dayAndClock(earliest.at, zone), dayAndClock(latest.at, zone))}
        </span>
      )}
      {touchTest !== null && <span class={css['soft']}>{texts.byHand(touchTest)}</span>}
    </div>
  );
}

type Percent = (at: string | number) => number;

function Bar({ mark, percent }: { readonly mark: Mark; readonly percent: Percent }) {
  const { when, earliest, latest } = mark;
  const from = earliest === null ? null : percent(earliest.at);
  const until = latest === null ? 100 : percent(latest.at);
  return (
    <div class={css['track']} aria-hidden="true">
      {from !== null && (
        <i
          class={css['band']}
          style={{ insetInlineStart: `${from}%`, inlineSize: `${Math.max(0.4, until - from)}%` }}
        />
      )}
      {when !== null && (
        <b class={css['kept']} style={{ insetInlineStart: `${percent(when.at)}%` }} />
      )}
    </div>
  );
}

function Axis({ last, percent }: { readonly last: number; readonly percent: Percent }) {
  const shown: number[] = [];
  for (const minutes of marksOfAxis) {
    const before = shown.at(-1);
    const isFar = before === undefined || percent(minutes) - percent(before) >= apart;
    if (minutes <= last && isFar && percent(minutes) <= 100 - apart / 2) shown.push(minutes);
  }
  return (
    <div class={css['mark']} aria-hidden="true">
      <span class={css['soft']}>{texts.film.axis}</span>
      <div class={css['axis']}>
        {shown.map((minutes) => (
          <span key={minutes} style={{ insetInlineStart: `${percent(minutes)}%` }}>
            {span(minutes)}
          </span>
        ))}
      </div>
    </div>
  );
}

/** The film itself, hardening; as wide as its place is. */
function Strip({
  film,
  laidFrom,
  laidUntil,
  last,
  percent,
}: Omit<ChartProps, 'name'> & { readonly last: number; readonly percent: Percent }) {
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const observer = new ResizeObserver(() => setWidth(element.clientWidth));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  const begin = Date.parse(laidFrom);
  const at = (moment: number): number => (percent((moment - begin) / 60_000) / 100) * width;
  return (
    <div class={css['mark']}>
      <span />
      <div ref={box} class={css['strip']}>
        {width > 0 && (
          <FilmStrip
            stretches={stagesOf(Date.parse(laidUntil), marksOf(film.marks))}
            windows={film.windows
              .filter(({ empty }) => !empty)
              .map(({ opens, closes }) => ({
                opens: opens === null ? null : Date.parse(opens.at),
                closes: closes === null ? null : Date.parse(closes.at),
              }))}
            at={at}
            from={Date.parse(laidUntil)}
            until={begin + last * 60_000}
          />
        )}
      </div>
    </div>
  );
}
