import type { Schema } from '../../../api/client.ts';
import { materials as texts } from '../../../texts/materials.ts';

type Body = Schema<'MaterialVersion'>['material'];

const named: Partial<Record<keyof Body, string>> = {
  ...texts.fields,
  ...texts.versions.fields,
};

/** The fields that differ, in words. */
export function changedIn(now: Partial<Body>, before: Partial<Body>): string[] {
  return (Object.keys(named) as (keyof Body)[]).flatMap((field) => {
    const isSame = JSON.stringify(now[field]) === JSON.stringify(before[field]);
    return isSame ? [] : [named[field]?.toLowerCase() ?? field];
  });
}

/** What somebody else has changed meanwhile. */
export const meanwhile = (
  theirs: { readonly before: Partial<Body>; readonly now: Partial<Body> } | undefined,
): string | undefined => {
  const fields = theirs === undefined ? [] : changedIn(theirs.now, theirs.before);
  return fields.length === 0 ? undefined : texts.versions.changed(fields);
};
