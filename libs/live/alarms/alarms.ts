import type { WantedAlarm } from './facts.ts';
import { filmAlarms } from './film-alarms.ts';
import { openFilms, type Sight, sightOf } from './sight.ts';
import { type AlarmsInput, siteOf } from './site.ts';
import { unbegunAlarms } from './unbegun.ts';
import { preparationAlarms, windowAlarms } from './window-alarms.ts';
import { workAlarms } from './work-alarms.ts';

/**
 * All that somebody should be told about the work as it stands: windows that open and close,
 * films that are too cold, cups, leases, work that goes on too long or is not begun. Each once by its key, by the
 * moment at which it is due; nothing for nobody.
 */
export function alarmsOf(input: AlarmsInput): WantedAlarm[] {
  const site = siteOf(input);
  const films = openFilms(site);
  let made: Sight | null = null;
  const sight = (): Sight => (made ??= sightOf(site, films));
  const found = [
    ...windowAlarms(site),
    ...preparationAlarms(site),
    ...(films.length === 0 ? [] : filmAlarms(site, films, sight())),
    ...workAlarms(site, films, sight),
    ...unbegunAlarms(site),
  ];
  return found
    .filter(({ audience }) => audience.length > 0)
    .sort((a, b) => a.dueAt.localeCompare(b.dueAt) || a.key.localeCompare(b.key));
}
