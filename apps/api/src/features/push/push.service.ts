import { Inject, Injectable } from '@nestjs/common';
import { endpointFault } from '#host/push-endpoint.ts';
import { type PushKeys, pushKeys } from '#host/push-keys.ts';
import { DomainError, fault } from '#kernel/error.ts';
import type { PushSubscription as Row } from '#persistence/generated/client.ts';
import { handOverPush } from '#persistence/live/push.ts';
import { refusalOf } from '#persistence/refusal.ts';
import { isoOf } from '#persistence/rows.ts';
import type { Origin } from '../../platform/access/origin.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { isUuid } from '../../platform/database/uuid.ts';
import type {
  PushKey,
  PushSubscription,
  PushSubscriptionInput,
  PushSubscriptionList,
} from './push.contract.ts';

/** More than anybody has browsers; a session that was stolen fills no table. */
const mostSubscriptions = 20;

/** The browsers of an account that take notifications. */
@Injectable()
export class PushService {
  readonly #keys: PushKeys;

  constructor(
    private readonly database: Database,
    @Inject(configToken) private readonly config: Config,
  ) {
    this.#keys = pushKeys(config.secretKey);
  }

  key(): PushKey {
    return { publicKey: this.#keys.publicKey };
  }

  list({ accountId }: Account): Promise<PushSubscriptionList> {
    return this.database.asAccount(accountId, async (tx) => {
      const orderBy = [{ createdAt: 'asc' as const }, { id: 'asc' as const }];
      const rows = await tx.pushSubscription.findMany({ where: { accountId }, orderBy });
      return { items: rows.map(show) };
    });
  }

  async subscribe(
    { accountId }: Account,
    { endpoint, keys }: PushSubscriptionInput,
    { agent }: Origin,
  ): Promise<PushSubscription> {
    assertOutward(endpoint, this.config.pushToLocal);
    const { p256dh, auth } = keys;
    try {
      return await this.database.asAccount(accountId, async (tx) => {
        await handOverPush(tx, endpoint, p256dh, auth);
        await assertRoom(tx, accountId, endpoint);
        const data = { accountId, endpoint, p256dh, auth, agent };
        const made = await tx.pushSubscription.upsert({
          where: { endpoint },
          create: data,
          update: { p256dh, auth, agent },
        });
        return show(made);
      });
    } catch (error) {
      if (!isOfAnother(error)) throw error;
      throw new DomainError('record.exists', 'Another account has this browser’s notifications.', {
        cure: 'Subscribe anew in the browser, which gives it another address.',
      });
    }
  }

  remove({ accountId }: Account, id: string): Promise<void> {
    return this.database.asAccount(accountId, async (tx) => {
      const { count } = isUuid(id)
        ? await tx.pushSubscription.deleteMany({ where: { id, accountId } })
        : { count: 0 };
      if (count !== 1) throw new DomainError('record.missing', `You have no subscription "${id}".`);
    });
  }
}

/** The address is there already, and nothing of it is to be seen: the wall says so, or the index. */
const isOfAnother = (error: unknown): boolean =>
  ['unique', 'permission'].includes(refusalOf(error)?.kind ?? '');

/** The service will post to it, so it leads out, to a push service. */
function assertOutward(endpoint: string, toLocal: boolean): void {
  const wrong = endpointFault(endpoint, toLocal);
  if (wrong === null) return;
  const found = fault('input.field', 'endpoint', wrong, {
    value: endpoint,
    cure: 'Send what the browser’s own subscription has.',
  });
  throw new DomainError('input.field', `endpoint ${wrong}`, { faults: [found] });
}

async function assertRoom(tx: Tx, accountId: string, endpoint: string): Promise<void> {
  const others = await tx.pushSubscription.count({
    where: { accountId, endpoint: { not: endpoint } },
  });
  if (others < mostSubscriptions) return;
  throw new DomainError(
    'input.limit',
    `An account has ${String(mostSubscriptions)} browsers for notifications at most.`,
    { cure: 'Remove one that you no longer use.' },
  );
}

const show = ({ id, endpoint, agent, createdAt, lastSentAt }: Row): PushSubscription => ({
  id,
  service: new URL(endpoint).host,
  agent,
  createdAt: isoOf(createdAt),
  lastSentAt: lastSentAt && isoOf(lastSentAt),
});
