import { Module } from '@nestjs/common';
import { AccountController } from './account.controller.ts';
import { AccountResolver } from './account.resolver.ts';
import { AccountService } from './account.service.ts';
import { ClearExpired } from './clear-expired.ts';
import { PasswordService } from './password.service.ts';

@Module({
  controllers: [AccountController],
  providers: [AccountService, PasswordService, AccountResolver, ClearExpired],
})
export class AccountModule {}
