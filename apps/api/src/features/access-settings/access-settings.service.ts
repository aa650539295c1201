import { Injectable } from '@nestjs/common';
import { DomainError } from '#kernel/error.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import { changedOne } from '../../platform/etag/revision.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { revokeCalendars } from '../calendars/calendars.service.ts';
import { revokeKeys } from '../program-keys/program-keys.service.ts';
import { SecondFactorService } from '../second-factor/second-factor.service.ts';
import type { AccessSettings, AccessSettingsPatch } from './access-settings.contract.ts';

/** What the yard asks of its members, and lets its owners read. */
@Injectable()
export class AccessSettingsService {
  constructor(
    private readonly database: Database,
    private readonly factor: SecondFactorService,
  ) {}

  get(viewer: Viewer): Promise<AccessSettings> {
    return this.database.inYard(viewer, (tx) => find(tx, viewer));
  }

  async update(
    viewer: Viewer,
    account: Account,
    revision: number,
    patch: AccessSettingsPatch,
  ): Promise<AccessSettings> {
    const { shownAt } = await this.factor.get(account);
    return this.database.inYard(viewer, async (tx) => {
      const { yardId } = viewer;
      const current = await find(tx, viewer);
      const { secondFactorRequired, ownersSeeCrew } = patched(current, patch);
      const switchesOn = secondFactorRequired && !current.secondFactorRequired;
      if (switchesOn && shownAt === null) throw wouldShutOut();
      const data = { secondFactorRequired, ownersSeeCrew };
      changedOne(await tx.yard.updateMany({ where: { id: yardId, revision }, data }));
      // They were made by sessions of which no second factor was asked.
      if (switchesOn) {
        await revokeKeys(tx, { yardId });
        await revokeCalendars(tx, { yardId });
      }
      await appendEvent(tx, viewer, 'access-settings-changed', 'yard', yardId, data);
      return find(tx, viewer);
    });
  }
}

async function find(tx: Tx, { yardId }: Viewer): Promise<AccessSettings> {
  const yard = await tx.yard.findUnique({
    where: { id: yardId },
    select: { secondFactorRequired: true, ownersSeeCrew: true, revision: true },
  });
  if (!yard) throw new DomainError('record.missing', 'There is no such yard.');
  return yard;
}

/** Whoever switches it on has to be able to switch it off again. */
function wouldShutOut(): DomainError {
  return new DomainError(
    'access.second-factor',
    'You would shut yourself out: this session has not shown a second factor.',
    { cure: 'Set one up for your account, or show it in this session; then repeat it.' },
  );
}
