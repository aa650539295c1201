import { film as texts } from '../texts/film.ts';
import { stages } from './stages.ts';
import { FilmStrip } from './strip.tsx';
import css from './strip.module.css';

const width = 35;
const whole = (moment: number): number => moment;

/** What the stretches and brackets of a film mean. */
export const FilmLegend = () => (
  <ul class={css['key']} aria-label={texts.legend}>
    {stages.map((stage) => (
      <li key={stage}>
        <span class={css['sample']}>
          <FilmStrip
            stretches={[{ stage, from: 0, until: width }]}
            windows={[]}
            at={whole}
            from={0}
            until={width}
          />
        </span>
        {texts.stage[stage]}
      </li>
    ))}
    <li>
      <span class={css['bracket']} aria-hidden="true">
        <b class={css['opens']} />
      </span>
      {texts.opens}
    </li>
    <li>
      <span class={css['bracket']} aria-hidden="true">
        <b class={css['closes']} />
      </span>
      {texts.closes}
    </li>
  </ul>
);
