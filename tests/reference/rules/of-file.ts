import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { calendarRules } from './calendars.ts';
import { optionRules } from './options.ts';
import { lagRules, singleModeRules } from './projects.ts';
import type { Rules } from './schedule.ts';
import { skillRules } from './skills.ts';

/** The rules of any file of the benchmark folder. */
export function rulesOf(path: string): Rules {
  const text = readFileSync(path, 'utf8');
  if (path.endsWith('.sm')) return singleModeRules(text);
  if (path.endsWith('.sch')) return lagRules(text);
  if (path.endsWith('.json')) {
    const { base } = JSON.parse(text) as { base: string };
    return calendarRules(text, readFileSync(join(dirname(path), '..', base), 'utf8'));
  }
  return /^\s*modes\s*=/m.test(text) ? optionRules(text) : skillRules(text);
}
