import { scaleLinear } from 'd3-scale';
import { useEffect, useRef, useState } from 'preact/hooks';
import { useYard } from '../../../frame/yard.tsx';
import { units } from '../../../session/session.ts';
import { dateIn, day, instantOf } from '../../../show/time.ts';
import { scaleOf } from '../../../show/units.ts';
import { spaces } from '../../../texts/set-up-spaces.ts';
import css from './chart.module.css';

const texts = spaces.forecast;

export interface Hour {
  readonly at: number;
  readonly cold: number;
  readonly expected: number;
  readonly warm: number;
  /** Of surfaces, where they are not as warm as the air. */
  readonly surface?: number;
}

export interface Mark {
  readonly from: number;
  readonly to: number;
  readonly kind: 'fine' | 'warn' | 'refuse' | 'unknown';
}

const hourMs = 3_600_000;
const height = 260;
const edge = { top: 12, bottom: 24, start: 44, end: 8 };
/** Room for marks below the lines; each kind has a height of its own, so that colour is not all. */
const marks = { fine: 14, warn: 9, refuse: 4, unknown: 14 } as const;
const markRoom = 20;
const leastLabel = 84;

/** Temperatures by the hour, as broad as there is room, with a band for what is not sure. */
export function TemperatureChart({
  label,
  hours,
  stretches = [],
  now,
}: {
  readonly label: string;
  readonly hours: readonly Hour[];
  readonly stretches?: readonly Mark[];
  readonly now?: number;
}) {
  const { timeZone } = useYard();
  const box = useRef<HTMLElement>(null);
  const width = useWidth(box);
  const mine = scaleOf('temperature', units.value);
  const shown = (celsius: number): number => celsius * mine.factor + mine.offset;
  const first = hours.at(0);
  const last = hours.at(-1);
  if (first === undefined || last === undefined) return null;

  const below = stretches.length > 0 ? markRoom : 0;
  const bottom = height - edge.bottom - below;
  const x = scaleLinear([first.at, last.at + hourMs], [edge.start, width - edge.end]);
  const all = hours.flatMap(({ cold, warm, surface }) => [cold, warm, surface ?? cold].map(shown));
  const y = scaleLinear([Math.min(...all) - 1, Math.max(...all) + 1], [bottom, edge.top]).nice(5);
  const path = (values: readonly (readonly [number, number])[]): string =>
    values
      .map(
        ([at, value], k) =>
          `${k === 0 ? 'M' : 'L'}${x(at).toFixed(1)},${y(shown(value)).toFixed(1)}`,
      )
      .join('');
  const band = `${path(hours.map(({ at, warm }) => [at, warm]))}${path(
    hours.map(({ at, cold }) => [at, cold] as const).toReversed(),
  ).replace('M', 'L')}Z`;
  const midnights = midnightsIn(first.at, last.at, timeZone);
  const step = Math.max(
    1,
    Math.ceil(leastLabel / Math.max(1, x(first.at + 24 * hourMs) - x(first.at))),
  );
  const hasBand = hours.some(({ cold, warm }) => warm - cold > 0);
  const hasSurface = hours.some(({ surface }) => surface !== undefined);
  return (
    <figure ref={box} class={css['figure']}>
      <svg
        class={css['chart']}
        role="img"
        aria-label={label}
        viewBox={`0 0 ${String(width)} ${String(height)}`}
      >
        {y.ticks(5).map((tick) => (
          <g key={tick}>
            <line
              class={css['grid']}
              x1={edge.start}
              x2={width - edge.end}
              y1={y(tick)}
              y2={y(tick)}
            />
            <text class={css['label']} x={edge.start - 6} y={y(tick) + 4} text-anchor="end">
              {`${String(tick)}°`}
            </text>
          </g>
        ))}
        {midnights.map((at, k) => (
          <g key={at}>
            <line
              class={css['day']}
              x1={x(at)}
              x2={x(at)}
              y1={edge.top}
              y2={height - edge.bottom}
            />
            {k % step === 0 && x(at) < width - leastLabel && (
              <text class={css['label']} x={x(at) + 4} y={height - 8}>
                {day(at, timeZone)}
              </text>
            )}
          </g>
        ))}
        {hasBand && <path class={css['band']} d={band} />}
        {hasSurface && (
          <path
            class={css['surface']}
            d={path(hours.map(({ at, surface, expected }) => [at, surface ?? expected]))}
          />
        )}
        <path class={css['expected']} d={path(hours.map(({ at, expected }) => [at, expected]))} />
        {stretches.map(({ from, to, kind }) => (
          <rect
            key={from}
            class={css[kind]}
            x={x(from)}
            width={Math.max(1, x(to) - x(from) - 1)}
            y={height - edge.bottom - marks[kind]}
            height={marks[kind]}
          />
        ))}
        {now !== undefined && now > first.at && now < last.at && (
          <line class={css['now']} x1={x(now)} x2={x(now)} y1={edge.top} y2={bottom} />
        )}
      </svg>
      {(hasBand || hasSurface || stretches.length > 0) && (
        <ul class={css['legend']}>
          <Key kind="expected" words={texts.expected} />
          {hasBand && <Key kind="band" words={texts.band} />}
          {hasSurface && <Key kind="surface" words={texts.surface} />}
          {(['fine', 'warn', 'refuse', 'unknown'] as const)
            .filter((kind) => stretches.some((one) => one.kind === kind))
            .map((kind) => (
              <Key key={kind} kind={kind} words={`${texts.verdict}: ${texts.verdicts[kind]}`} />
            ))}
        </ul>
      )}
    </figure>
  );
}

function Key({ kind, words }: { readonly kind: string; readonly words: string }) {
  const isLine = kind === 'expected' || kind === 'surface';
  const tall = kind === 'warn' ? 9 : kind === 'refuse' ? 4 : 13;
  return (
    <li>
      <svg class={css['key']} viewBox="0 0 26 13" aria-hidden="true">
        {isLine ? (
          <path class={css[kind]} d="M0,7L26,7" />
        ) : (
          <rect class={css[kind]} width="26" y={13 - tall} height={tall} />
        )}
      </svg>
      {words}
    </li>
  );
}

function midnightsIn(from: number, to: number, zone: string): number[] {
  const found: number[] = [];
  let at = Date.parse(instantOf(`${dateIn(from, zone)}T00:00`, zone));
  while (at <= to) {
    if (at >= from) found.push(at);
    // A day has 23 to 25 hours: its middle names the next one for sure.
    at = Date.parse(instantOf(`${dateIn(at + 36 * hourMs, zone)}T00:00`, zone));
  }
  return found;
}

function useWidth(box: { readonly current: HTMLElement | null }): number {
  const [width, setWidth] = useState(640);
  useEffect(() => {
    if (box.current === null) return undefined;
    const observer = new ResizeObserver(([entry]) => {
      setWidth(Math.max(240, Math.floor(entry.contentRect.width)));
    });
    observer.observe(box.current);
    return () => observer.disconnect();
  }, []);
  return width;
}
