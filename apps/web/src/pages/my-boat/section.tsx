import type { ComponentChildren } from 'preact';
import { myBoat as texts } from '../../texts/my-boat.ts';

/** Of headings within a boat: one more where the page has several boats. */
export type Level = 2 | 3;

/** Of a part of the page: where there are several boats, it says of which. */
export const titleOf = (title: string, boat: string, level: Level): string =>
  level === 2 ? title : texts.ofBoat(title, boat);

export function Heading({
  level,
  children,
}: {
  readonly level: Level | 4;
  readonly children: ComponentChildren;
}) {
  const Name = `h${level}` as const;
  return <Name>{children}</Name>;
}
