import { useEffect, useRef, useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { readingsOf } from '../../../api/readings.ts';
import { useKeptResource } from '../../../offline/kept-resource.ts';

interface Warmth {
  /** Of the coming day: the forecast, put right by what thermometers said before. */
  readonly hours: readonly Schema<'ClimateHour'>[];
  readonly readings: readonly Schema<'Reading'>[];
}

const hourMs = 60 * 60_000;
/** A thermometer that was read so lately shows about the same yet. No source. */
const freshMs = hourMs;
/** So long is waited for what is read anew; then what is known has to do. No source. */
const patienceMs = 8_000;
/** A heated shop, °C, where nothing is known of the space. No source. */
const usual = 20;

const minuteOf = (ms: number): string => `${new Date(ms).toISOString().slice(0, 16)}:00Z`;

interface Warm {
  /** °C. Undefined: not known. */
  readonly celsius: number | undefined;
  /** It was read, or cannot be: what comes later is another reading. */
  readonly isSettled: boolean;
}

/**
 * How warm a space is at present: by the last that a thermometer said, else as it is forecast. A day of
 * it is read ahead, for when the yard is out of reach.
 */
export function useWarmth(
  yardId: string,
  spaceId: string | undefined,
  of: 'air' | 'surface',
): Warm {
  const { data, isBusy } = useKeptResource<Warmth>(
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
  return { celsius: last?.celsius ?? hour?.[of].expected, isSettled: !isBusy };
}

/**
 * Around what a thermometer is likely to stand, °C. Once known it stays, whatever is read later: what is
 * pressed must not change under the thumb. Undefined: not known yet.
 */
export function useAbout(
  yardId: string,
  spaceId: string | undefined,
  of: 'air' | 'surface',
): number | undefined {
  const { celsius, isSettled } = useWarmth(yardId, spaceId, of);
  const key = `${spaceId ?? ''} ${of}`;
  const [late, setLate] = useState('');
  const known = useRef<Readonly<Record<string, number | undefined>>>({});
  useEffect(() => {
    const timer = setTimeout(setLate, patienceMs, key);
    return () => {
      clearTimeout(timer);
    };
  }, [key]);
  if (known.current[key] === undefined && (isSettled || late === key)) {
    known.current = { ...known.current, [key]: celsius ?? usual };
  }
  return known.current[key];
}

async function load(yardId: string, spaceId: string, signal: AbortSignal): Promise<Warmth> {
  const now = Date.now();
  const [{ hours }, readings] = await Promise.all([
    asked(
      api.GET('/api/v1/yards/{yardId}/spaces/{id}/climate', {
        params: {
          path: { yardId, id: spaceId },
          query: { from: minuteOf(now), until: minuteOf(now + 24 * hourMs) },
        },
        signal,
      }),
    ),
    readingsOf(yardId, { space: spaceId, from: minuteOf(now - freshMs) }, signal),
  ]);
  return { hours, readings };
}
