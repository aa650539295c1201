import type { Schema } from '../api/client.ts';
import { Notice } from '../looks/looks.tsx';
import { placing as texts } from '../texts/placing.ts';
import css from './placing.module.css';

/** Always open: nobody has to ask for what keeps them whole. */
export function Cautions({
  cautions,
  also,
}: {
  readonly cautions: readonly Schema<'Caution'>[];
  /** What holds for the whole plan. */
  readonly also?: string;
}) {
  return (
    <Notice tone="heed" title={texts.cautions}>
      <ul>
        {cautions.map(({ text, source }) => (
          <li key={text}>
            {text} <span class={css['soft']}>{texts.source(source)}</span>
          </li>
        ))}
        {also !== undefined && also !== '' && <li>{also}</li>}
      </ul>
    </Notice>
  );
}
