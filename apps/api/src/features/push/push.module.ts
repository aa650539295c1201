import { Module } from '@nestjs/common';
import { PushController } from './push.controller.ts';
import { PushResolver } from './push.resolver.ts';
import { PushService } from './push.service.ts';

@Module({
  controllers: [PushController],
  providers: [PushService, PushResolver],
})
export class PushModule {}
