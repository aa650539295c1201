import { Module } from '@nestjs/common';
import { MySessionsService } from './my-sessions.service.ts';
import { SessionController } from './session.controller.ts';
import { SessionResolver } from './session.resolver.ts';
import { SessionService } from './session.service.ts';

@Module({
  controllers: [SessionController],
  providers: [SessionService, MySessionsService, SessionResolver],
})
export class SessionModule {}
