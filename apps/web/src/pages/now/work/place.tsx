import { now as texts } from '../../../texts/now.ts';
import css from '../now.module.css';
import type { Mine } from './mine.ts';

/** In a word and by its shape how a task stands; and whether the service knows. */
export const State = ({ mine: { state, isUnsent } }: { readonly mine: Mine }) => (
  <p class={css['state']}>
    <span class={css['sign']} data-state={state} aria-hidden="true" />
    <span>{texts.state[state]}</span>
    {isUnsent && <span class={css['unsent']}>{texts.notSent}</span>}
  </p>
);

/** Of which part, where, with whom. */
export function Place({ mine }: { readonly mine: Mine }) {
  const { part, boat, crew, ready, briefing, state } = mine;
  const space = ready?.space ?? briefing?.space;
  const others = (state === 'ready' ? (ready?.planned?.crew ?? []) : crew).map(({ name }) => name);
  const where = [part, boat, ...(space === undefined ? [] : [space])].join(' · ');
  return (
    <div class={css['place']}>
      <p>{where}</p>
      {others.length > 1 && <p class={css['soft']}>{texts.with(others)}</p>}
    </div>
  );
}
