import { api, asked, type Schema } from '../../../api/client.ts';
import { useKeptResource } from '../../../offline/kept-resource.ts';

interface Warmth {
  /** Of the coming day: the forecast, put right by what thermometers said before. */
  readonly hours: readonly Schema<'ClimateHour'>[];
  readonly readings: readonly Schema<'Reading'>[];
}

const hourMs = 60 * 60_000;
/** A thermometer that was read so lately shows about the same yet. No source. */
const freshMs = hourMs;
/** A logger tells one a minute at most; this is more than it does in that time. */
const mostReadings = 100;

const minuteOf = (ms: number): string => `${new Date(ms).toISOString().slice(0, 16)}:00Z`;

/**
 * How warm a space is at present, °C: by the last that a thermometer said, else as it is forecast. A day
 * of it is read ahead, for when the yard is out of reach. Undefined: not known.
 */
export function useWarmth(
  yardId: string,
  spaceId: string | undefined,
  of: 'air' | 'surface',
): number | undefined {
  const { data } = useKeptResource<Warmth>(
    spaceId === undefined ? null : `warmth ${yardId} ${spaceId}`,
    (signal) => load(yardId, spaceId ?? '', signal),
    { yardId, on: ({ subject, subjectId }) => subject === 'space' && subjectId === spaceId },
  );
  const now = Date.now();
  const last = data?.readings
    .filter((one) => one.of === of && now - Date.parse(one.at) < freshMs)
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
    .at(-1);
  const hour = data?.hours.findLast(({ when }) => Date.parse(when.at) <= now) ?? data?.hours.at(0);
  return last?.celsius ?? hour?.[of].expected;
}

async function load(yardId: string, spaceId: string, signal: AbortSignal): Promise<Warmth> {
  const now = Date.now();
  const [{ hours }, { items }] = await Promise.all([
    asked(
      api.GET('/api/v1/yards/{yardId}/spaces/{id}/climate', {
        params: {
          path: { yardId, id: spaceId },
          query: { from: minuteOf(now), until: minuteOf(now + 24 * hourMs) },
        },
        signal,
      }),
    ),
    asked(
      api.GET('/api/v1/yards/{yardId}/readings', {
        params: {
          path: { yardId },
          query: { space: spaceId, from: minuteOf(now - freshMs), first: mostReadings },
        },
        signal,
      }),
    ),
  ]);
  return { hours, readings: items };
}
