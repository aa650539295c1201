import type { Evidence, Trust } from '#cure/evidence/evidence.ts';

const words: Readonly<Record<Trust, string>> = {
  read: 'read',
  code: 'from public code',
  calculated: 'calculated',
  memory: 'from memory',
  practice: 'common practice, no source',
  sheet: 'data sheet',
  measured: 'measured here',
};

/** A source with how far it can be trusted, once. */
export const cited = ({ trust, source }: Evidence): string =>
  source.includes(words[trust]) ? source : `${source} (${words[trust]})`;
