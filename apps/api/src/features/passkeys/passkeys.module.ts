import { Module } from '@nestjs/common';
import { SecondFactorModule } from '../second-factor/second-factor.module.ts';
import { Challenges } from './challenges.ts';
import { PasskeySignInService } from './passkey-sign-in.service.ts';
import { PasskeysController } from './passkeys.controller.ts';
import { PasskeysResolver } from './passkeys.resolver.ts';
import { PasskeysService } from './passkeys.service.ts';

@Module({
  imports: [SecondFactorModule],
  controllers: [PasskeysController],
  providers: [PasskeysService, PasskeySignInService, Challenges, PasskeysResolver],
})
export class PasskeysModule {}
