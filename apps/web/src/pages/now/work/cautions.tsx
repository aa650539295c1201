import { Notice } from '../../../looks/looks.tsx';
import { now as texts } from '../../../texts/now.ts';
import type { Briefing } from '../now-data.ts';
import css from '../now.module.css';
import type { Mine } from './mine.ts';

/** What to look at first, and what can hurt: as the service says it, never behind a press. */
export const Cautions = ({ warnings, cautions }: Pick<Briefing, 'warnings' | 'cautions'>) => (
  <>
    {warnings.length > 0 && (
      <Notice tone="heed" title={texts.warnings}>
        <ul class={css['plain']}>
          {warnings.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      </Notice>
    )}
    {cautions.length > 0 && (
      <Notice tone="harm" title={texts.cautions}>
        <ul class={css['plain']}>
          {cautions.map(({ text, source }) => (
            <li key={text}>
              {text} <small class={css['soft']}>{texts.source(source)}</small>
            </li>
          ))}
        </ul>
      </Notice>
    )}
  </>
);

/**
 * Those of all that stands in the upper cards, each once. They come after what is pressed, so that
 * none of it is pushed off the screen by how many they are.
 */
export function CautionsOf({ list }: { readonly list: readonly Mine[] }) {
  const told = list.flatMap(({ name, briefing }) =>
    briefing === null ? [] : [{ name, briefing }],
  );
  const warnings = told.flatMap(({ name, briefing }) =>
    briefing.warnings.map((text) => (list.length > 1 ? texts.warningOf(name, text) : text)),
  );
  const cautions = new Map(
    told.flatMap(({ briefing }) => briefing.cautions.map((caution) => [caution.text, caution])),
  );
  return <Cautions warnings={[...new Set(warnings)]} cautions={[...cautions.values()]} />;
}
