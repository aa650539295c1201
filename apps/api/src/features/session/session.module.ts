import { Module } from '@nestjs/common';
import { SessionController } from './session.controller.ts';
import { SessionResolver } from './session.resolver.ts';
import { SessionService } from './session.service.ts';

@Module({
  controllers: [SessionController],
  providers: [SessionService, SessionResolver],
  exports: [SessionService],
})
export class SessionModule {}
