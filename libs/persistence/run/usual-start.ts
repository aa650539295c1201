import type { Transaction } from '../client.ts';

const minuteMs = 60_000;
const dayMs = 24 * 60 * minuteMs;

/**
 * Now, to the next whole minute: nobody can do in the past what is planned today. A yard whose
 * time has not come, or is over, is planned from its beginning: null.
 */
export async function usualStart(
  tx: Transaction,
  yardId: string,
  at: Date = new Date(),
): Promise<Date | null> {
  const yard = await tx.yard.findUniqueOrThrow({
    where: { id: yardId },
    select: { planFrom: true, horizonDays: true },
  });
  const begin = yard.planFrom.getTime();
  const now = Math.ceil(at.getTime() / minuteMs) * minuteMs;
  return now > begin && now < begin + yard.horizonDays * dayMs ? new Date(now) : null;
}
