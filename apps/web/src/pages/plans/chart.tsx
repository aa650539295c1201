import { scaleLinear } from 'd3-scale';
import { useRef } from 'preact/hooks';
import { Table } from '../../looks/looks.tsx';
import { useWidth } from '../../looks/use-width.ts';
import { number } from '../../show/units.ts';
import { plans as texts } from '../../texts/plans.ts';
import css from './plans.module.css';
import { type Standing, steps } from './progress.ts';

const height = 220;
const margin = { top: 16, end: 16, bottom: 32, start: 52 };

/** Best found and bound over time: they close in on each other from two sides. */
export function RunChart({
  title,
  standings,
}: {
  readonly title: string;
  readonly standings: readonly Standing[];
}) {
  const box = useRef<HTMLDivElement>(null);
  const width = useWidth(box);
  const values = standings.flatMap(({ best, bound }) =>
    [best, bound].filter((one) => one !== null),
  );
  return (
    <figure class={css['figure']}>
      <figcaption>{title}</figcaption>
      <div ref={box}>
        {values.length === 0 && <p class={css['soft']}>{texts.notShown}</p>}
        {values.length > 0 && width > 0 && (
          <Drawn standings={standings} values={values} width={width} />
        )}
      </div>
      {values.length > 0 && <AsTable title={title} standings={standings} />}
    </figure>
  );
}

function Drawn({
  standings,
  values,
  width,
}: {
  readonly standings: readonly Standing[];
  readonly values: readonly number[];
  readonly width: number;
}) {
  const last = standings.at(-1)?.second ?? 0;
  const x = scaleLinear([0, Math.max(1, last)], [margin.start, width - margin.end]);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  // A line that is flat still needs a height to lie in.
  const room = Math.max((most - least) * 0.1, 0.05);
  const y = scaleLinear([least - room, most + room], [height - margin.bottom, margin.top]);
  return (
    <>
      <svg
        class={css['chart']}
        viewBox={`0 0 ${String(width)} ${String(height)}`}
        height={height}
        aria-hidden="true"
      >
        {y.ticks(4).map((tick) => (
          <g key={tick}>
            <line
              class={css['grid']}
              x1={margin.start}
              x2={width - margin.end}
              y1={y(tick)}
              y2={y(tick)}
            />
            <text class={css['tick']} x={margin.start - 6} y={y(tick) + 4} text-anchor="end">
              {number(tick)}
            </text>
          </g>
        ))}
        {x.ticks(Math.max(2, Math.floor(width / 120))).map((tick) => (
          <text
            key={tick}
            class={css['tick']}
            x={x(tick)}
            y={height - margin.bottom + 18}
            text-anchor="middle"
          >
            {number(tick)}
          </text>
        ))}
        <path class={css['bound']} d={steps(standings, ({ bound }) => bound, x, y)} />
        <path class={css['best']} d={steps(standings, ({ best }) => best, x, y)} />
      </svg>
      <p class={css['key']} aria-hidden="true">
        <span class={css['keyBest']}>{texts.bestLine}</span>
        <span class={css['keyBound']}>{texts.boundLine}</span>
        <span>
          ↕ {texts.axisDays} · ↔ {texts.axisSeconds}
        </span>
      </p>
    </>
  );
}

const orNothing = (value: number | null): string => (value === null ? '–' : number(value));

const AsTable = ({
  title,
  standings,
}: {
  readonly title: string;
  readonly standings: readonly Standing[];
}) => (
  <details>
    <summary>{texts.asTable}</summary>
    <Table caption={title}>
      <thead>
        <tr>
          <th scope="col">{texts.second}</th>
          <th scope="col">{texts.bestLine}</th>
          <th scope="col">{texts.boundLine}</th>
        </tr>
      </thead>
      <tbody>
        {standings.map(({ second, best, bound }, k) => (
          <tr key={k}>
            <th scope="row">{number(second, 1)}</th>
            <td>{orNothing(best)}</td>
            <td>{orNothing(bound)}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  </details>
);
