import { Module } from '@nestjs/common';
import { CodeSignInService } from './code-sign-in.service.ts';
import { FactorCodes } from './factor-codes.ts';
import { FactorNotices } from './notices.service.ts';
import { SecondFactorController } from './second-factor.controller.ts';
import { SecondFactorResolver } from './second-factor.resolver.ts';
import { SecondFactorService } from './second-factor.service.ts';

@Module({
  controllers: [SecondFactorController],
  providers: [
    SecondFactorService,
    CodeSignInService,
    FactorCodes,
    FactorNotices,
    SecondFactorResolver,
  ],
  exports: [SecondFactorService, FactorNotices],
})
export class SecondFactorModule {}
