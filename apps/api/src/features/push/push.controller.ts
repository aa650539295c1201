import { Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { ByAccount } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { Answers } from '../../platform/http/answers.ts';
import { BodyOf } from '../../platform/shapes/input.ts';
import {
  PushKey,
  PushSubscription,
  PushSubscriptionInput,
  PushSubscriptionList,
} from './push.contract.ts';
import { PushService } from './push.service.ts';

@Controller()
export class PushController {
  constructor(private readonly push: PushService) {}

  @Get('push-key')
  @Answers(200, PushKey)
  key(): PushKey {
    return this.push.key();
  }

  @Get('push-subscriptions')
  @Answers(200, PushSubscriptionList)
  list(@ByAccount() account: Account): Promise<PushSubscriptionList> {
    return this.push.list(account);
  }

  /** The caller's alarms go to this browser from now on; the same one again is the same subscription. */
  @Post('push-subscriptions')
  @Answers(201, PushSubscription)
  subscribe(
    @ByAccount() account: Account,
    @From() from: Origin,
    @BodyOf(PushSubscriptionInput) input: PushSubscriptionInput,
  ): Promise<PushSubscription> {
    return this.push.subscribe(account, input, from);
  }

  @Delete('push-subscriptions/:id')
  @Answers(204)
  remove(@ByAccount() account: Account, @Param('id') id: string): Promise<void> {
    return this.push.remove(account, id);
  }
}
