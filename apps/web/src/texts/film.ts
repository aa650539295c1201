import { inLanguage } from './language.ts';

/** What a film and the air are called. */
const en = {
  stage: {
    liquid: 'liquid',
    tacky: 'tacky',
    green: 'green',
    hard: 'hard',
    cured: 'cured',
  },
  legend: 'What a film looks like',
  opens: 'a window opens',
  closes: 'a window shuts',
} as const;

export const film = inLanguage({ en });
