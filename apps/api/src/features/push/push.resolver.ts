import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ByAccount } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import {
  PushKey,
  PushSubscription,
  PushSubscriptionInput,
  PushSubscriptionList,
} from './push.contract.ts';
import { PushService } from './push.service.ts';

@Resolver(() => PushSubscription)
export class PushResolver {
  constructor(private readonly push: PushService) {}

  @Query(() => PushKey)
  pushKey(): PushKey {
    return this.push.key();
  }

  @Query(() => PushSubscriptionList)
  pushSubscriptions(@ByAccount() account: Account): Promise<PushSubscriptionList> {
    return this.push.list(account);
  }

  @Mutation(() => PushSubscription)
  subscribePush(
    @ByAccount() account: Account,
    @From() from: Origin,
    @ArgOf(PushSubscriptionInput) input: PushSubscriptionInput,
  ): Promise<PushSubscription> {
    return this.push.subscribe(account, input, from);
  }

  @Mutation(() => Boolean)
  async removePushSubscription(
    @ByAccount() account: Account,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<boolean> {
    await this.push.remove(account, id);
    return true;
  }
}
