import { useEffect, useState } from 'preact/hooks';
import { clock, dateIn, dayAndClock } from '../../show/time.ts';

/** The moment it is, anew after each so many ms while the page is looked at. */
export function useTick(ms: number): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const tick = (): void => {
      if (document.visibilityState === 'visible') setNow(Date.now());
    };
    const timer = setInterval(tick, ms);
    document.addEventListener('visibilitychange', tick);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', tick);
    };
  }, [ms]);
  return now;
}

/** Whether the page is looked at: not behind another one, nor on a phone in a pocket. */
export function useIsSeen(): boolean {
  const [isSeen, setSeen] = useState(() => document.visibilityState === 'visible');
  useEffect(() => {
    const look = (): void => setSeen(document.visibilityState === 'visible');
    look();
    document.addEventListener('visibilitychange', look);
    return () => {
      document.removeEventListener('visibilitychange', look);
    };
  }, []);
  return isSeen;
}

/** Of today the clock, of other days the day too. */
export const moment = (at: string, zone: string, now = Date.now()): string =>
  dateIn(at, zone) === dateIn(now, zone) ? clock(at, zone) : dayAndClock(at, zone);

/** `12:05`, `1:02:05`: minutes and seconds that are left or have gone. */
export function stopwatch(ms: number): string {
  const seconds = Math.max(0, Math.floor(ms / 1000));
  const two = (value: number): string => String(value).padStart(2, '0');
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor((seconds % 3600) / 60)];
  const rest = two(seconds % 60);
  return hours === 0 ? `${String(minutes)}:${rest}` : `${String(hours)}:${two(minutes)}:${rest}`;
}
