/** A notice that stands on this device: what the service worker lays beside it (`service-worker/notices.ts`). */
interface Noticed {
  readonly accountId: string;
  readonly yardId: string;
}

export interface Notice extends Noticed {
  readonly alarmId: string;
  readonly close: () => void;
}

const isNoticed = (data: unknown): data is Noticed =>
  typeof data === 'object' && data !== null && 'accountId' in data && 'yardId' in data;

/** Notices that came while no page was looked at, and stand yet. */
export async function noticesHere(): Promise<readonly Notice[]> {
  if (!('serviceWorker' in navigator)) return [];
  const worker = await navigator.serviceWorker.getRegistration();
  if (worker === undefined || !('getNotifications' in worker)) return [];
  const notices = await worker.getNotifications();
  return notices.flatMap((notice) => {
    const data: unknown = notice.data;
    if (!isNoticed(data)) return [];
    return [{ ...data, alarmId: notice.tag, close: () => notice.close() }];
  });
}

/** Takes those away that are for somebody else, on a telephone that goes from hand to hand. */
export async function closeNoticesOfOthers(accountId: string | undefined): Promise<void> {
  for (const notice of await noticesHere()) if (notice.accountId !== accountId) notice.close();
}
