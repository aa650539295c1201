import { signal } from '@preact/signals';

/**
 * Whether the service can be reached, as far as is known: the device has a network, and the last
 * request was answered.
 */
export const isReachable = signal(navigator.onLine);

addEventListener('online', () => {
  isReachable.value = true;
});
addEventListener('offline', () => {
  isReachable.value = false;
});

/** A request was answered, whatever the answer, or was not. */
export function heardFrom(isAnswered: boolean): void {
  isReachable.value = isAnswered && navigator.onLine;
}
