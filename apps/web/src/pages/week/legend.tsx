import { FilmLegend } from '../../film/legend.tsx';
import { week as texts } from '../../texts/week.ts';
import pictureCss from './picture.module.css';
import css from './week.module.css';

const samples = [
  ['waiting', 'clean', '', texts.state.waiting],
  ['claimed', 'clean', '', texts.state.claimed],
  ['working', 'clean', '', texts.state.working],
  ['paused', 'clean', '', texts.state.paused],
  ['done', 'clean', '', texts.state.done],
  ['waiting', 'wet', '', texts.air.wet],
  ['waiting', 'dusty', '', texts.air.dusty],
  ['waiting', 'clean', 'a', texts.legendCut],
] as const;

/** What lines, ends and textures mean. */
export const Legend = () => (
  <details>
    <summary>{texts.legend}</summary>
    <div class={css['legend']}>
      <p>{texts.legendTime}</p>
      <ul class={css['key']}>
        {samples.map(([state, air, cut, words]) => (
          <li key={words}>
            <span class={pictureCss['sample']} aria-hidden="true">
              <span
                class={pictureCss['plank']}
                data-state={state}
                data-air={air}
                data-cut={cut}
                style={{ inlineSize: '2.4rem', insetBlockStart: '0px' }}
              />
            </span>
            {words}
          </li>
        ))}
        <li>
          <span class={pictureCss['sample']} aria-hidden="true">
            <span
              class={pictureCss['plank']}
              data-state="waiting"
              data-late
              style={{ inlineSize: '2.4rem', insetBlockStart: '0px' }}
            />
          </span>
          {texts.legendLate}
        </li>
        <li>
          <span class={pictureCss['sample']} aria-hidden="true">
            <i class={pictureCss['off']} style={{ inlineSize: '2.4rem' }} />
          </span>
          {texts.legendOff}
        </li>
        <li>
          <span class={pictureCss['sample']} aria-hidden="true">
            <i class={pictureCss['dust']} style={{ inlineSize: '2.4rem' }} />
          </span>
          {texts.legendDust}
        </li>
      </ul>
      <p>{texts.legendSigns}</p>
      <FilmLegend />
    </div>
  </details>
);
