import type { ComponentChildren } from 'preact';
import { useTitle } from '../frame/title.ts';
import { common } from '../texts/common.ts';
import css from './door.module.css';

/** A page for whoever is not in yet: its heading, and one thing to do. */
export function Door({
  title,
  children,
}: {
  readonly title: string;
  readonly children: ComponentChildren;
}) {
  useTitle(title);
  return (
    <div class={css['door']}>
      <div>
        <p class={css['product']}>{common.product}</p>
        <h1>{title}</h1>
      </div>
      {children}
    </div>
  );
}
