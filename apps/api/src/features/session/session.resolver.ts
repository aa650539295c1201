import { Context, Mutation, Query, Resolver } from '@nestjs/graphql';
import { ByAccount, type GraphqlContext } from '../../platform/access/caller.ts';
import { Public, SignedIn } from '../../platform/access/rules.ts';
import { tokenOf } from '../../platform/access/token.ts';
import type { Account } from '../../platform/access/viewer.ts';
import { ArgOf } from '../../platform/shapes/input.ts';
import { Me, Session, SignIn } from './session.contract.ts';
import { SessionService } from './session.service.ts';

@Resolver()
export class SessionResolver {
  constructor(private readonly service: SessionService) {}

  @Mutation(() => Session)
  @Public()
  signIn(@ArgOf(SignIn) input: SignIn): Promise<Session> {
    return this.service.signIn(input);
  }

  @Mutation(() => Boolean)
  @SignedIn()
  async signOut(@Context() { req }: GraphqlContext): Promise<boolean> {
    await this.service.signOut(tokenOf(req.headers));
    return true;
  }

  @Query(() => Me)
  @SignedIn()
  me(@ByAccount() account: Account): Promise<Me> {
    return this.service.me(account);
  }
}
