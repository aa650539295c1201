import { Args, ID, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ByAccount } from '../../platform/access/caller.ts';
import { From, type Origin } from '../../platform/access/origin.ts';
import { Session } from '../../platform/access/session-shape.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { PasskeySignInService } from './passkey-sign-in.service.ts';
import {
  Passkey,
  PasskeyCreation,
  PasskeyInput,
  PasskeyList,
  PasskeyOptionsInput,
  PasskeyPatch,
  PasskeyRequest,
  PasskeySignInInput,
} from './passkeys.contract.ts';
import { PasskeysService } from './passkeys.service.ts';

@Resolver(() => Passkey)
export class PasskeysResolver {
  constructor(
    private readonly passkeys: PasskeysService,
    private readonly signIns: PasskeySignInService,
  ) {}

  @Mutation(() => PasskeyRequest)
  passkeySignInOptions(): Promise<PasskeyRequest> {
    return this.signIns.options();
  }

  @Mutation(() => Session)
  signInWithPasskey(
    @From() from: Origin,
    @ArgOf(PasskeySignInInput) input: PasskeySignInInput,
  ): Promise<Session> {
    return this.signIns.signIn(input, from);
  }

  @Query(() => PasskeyList, { name: 'passkeys' })
  list(@ByAccount() account: Account): Promise<PasskeyList> {
    return this.passkeys.list(account);
  }

  @Mutation(() => PasskeyCreation)
  passkeyOptions(
    @ByAccount() account: Account,
    @From() from: Origin,
    @ArgOf(PasskeyOptionsInput) input: PasskeyOptionsInput,
  ): Promise<PasskeyCreation> {
    return this.passkeys.options(account, input, from);
  }

  @Mutation(() => Passkey)
  addPasskey(
    @ByAccount() account: Account,
    @ArgOf(PasskeyInput) input: PasskeyInput,
  ): Promise<Passkey> {
    return this.passkeys.add(account, input);
  }

  @Mutation(() => Passkey)
  renamePasskey(
    @ByAccount() account: Account,
    @Args('id', { type: () => ID }) id: string,
    @ArgOf(PasskeyPatch) patch: PasskeyPatch,
  ): Promise<Passkey> {
    return this.passkeys.rename(account, id, patch);
  }

  @Mutation(() => Boolean)
  async removePasskey(
    @ByAccount() account: Account,
    @Args('id', { type: () => ID }) id: string,
  ): Promise<boolean> {
    await this.passkeys.remove(account, id);
    return true;
  }
}
