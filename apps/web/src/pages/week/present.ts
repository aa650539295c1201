import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';

/** Now, ms; while the week is shown it goes on by itself, minute by minute. */
export const present = signal(Date.now());

const minute = 60_000;

export function usePresent(): void {
  useEffect(() => {
    const tick = (): void => {
      present.value = Date.now();
    };
    tick();
    const timer = setInterval(tick, minute);
    return () => clearInterval(timer);
  }, []);
}
