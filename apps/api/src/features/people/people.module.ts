import { Module } from '@nestjs/common';
import { PeopleController } from './people.controller.ts';
import { PeopleResolver } from './people.resolver.ts';
import { PeopleService } from './people.service.ts';

@Module({
  controllers: [PeopleController],
  providers: [PeopleService, PeopleResolver],
  exports: [PeopleService],
})
export class PeopleModule {}
